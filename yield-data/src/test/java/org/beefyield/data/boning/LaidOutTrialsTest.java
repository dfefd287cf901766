package org.beefyield.data.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.beefyield.boning.Quarter;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

/** Trials of declared layouts: what becomes of rows, and every fault that they can have. */
class LaidOutTrialsTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final String NEEDED = """
            column,holds,quarter,code,stands_for,factor
            Id,carcass,,,,
            Kat,category,,,,
            Conf,conformation,,,,
            Fat,fat_class,,,,
            """;
    private static final String COLD = "Kg,cold_weight_kg,,,,\n";
    private static final String SIDES = ",rows,,,side,\n";
    private static final String GRADED = "Id,Kat,Conf,Fat,Kg,";

    private static TrialSheet read(String layout, String trials) {
        TrialLayout laidOut = TrialLayoutReader.read(source("l.csv", layout), CsvForm.standard(), SHIPPED);
        return TrialReader.read(source("t.csv", trials), CsvForm.standard(), laidOut);
    }

    private static Source source(String name, String content) {
        return Source.of(name, content.getBytes(StandardCharsets.UTF_8));
    }

    private static List<String> problems(String layout, String trials) {
        return words(read(layout, trials).problems());
    }

    private static List<String> refused(String layout, String trials) {
        return words(catchThrowableOfType(InvalidDataException.class, () -> read(layout, trials))
                .problems());
    }

    private static List<String> words(List<Problem> problems) {
        return problems.stream()
                .map(problem -> problem + (problem.value().isEmpty() ? "" : " [" + problem.value() + "]"))
                .toList();
    }

    private static List<String> kg(TrialSheet sheet) {
        return sheet.trials().stream()
                .map(trial -> trial.carcass() + " " + trial.kg())
                .toList();
    }

    @Test
    void columnsOfOneCutAddUpAndFactorsMakeKilograms() {
        TrialSheet sheet = read(
                NEEDED + COLD + "D,day,,,,\nB1,bone,,,,\nB2,bone,,,,0.001\nT,striploin/lean-trim,,,,\nX,ignored,,,,\n",
                GRADED + "D,B1,B2,T,X\nA1,C,R=,3+,342,2026-11-02,60,2500,1.5,what\n");

        assertThat(sheet.problems()).isEmpty();
        assertThat(kg(sheet)).containsExactly("A1 C R= 3+ 342 kg {bone=62.5, striploin/lean-trim=1.5}");
        assertThat(sheet.trials().get(0).day()).isEqualTo("2026-11-02");
    }

    @Test
    void codesArePositionsAreAndLeavingOutIsDeclared() {
        TrialSheet sheet = read(
                "column,holds,quarter,code,stands_for,factor\nId,carcass,,,,\n"
                        + "Kat,category,,1,A,\nKat,category,,2,D,\nKat,category,,9,leave-out,\n"
                        + "Conf,conformation_points,,,,\nFat,fat_points,,,,\n" + COLD + "B,bone,,,,\n",
                GRADED + "B\nA1,1,8,9,300,50\nA2,9,99,x,,\nA3,2,7.4,3,250,49\nA4,3,19,0,250,49\nA5,2,x,3,250,49\n");

        assertThat(kg(sheet)).containsExactly("A1 A R= 3+ 300 kg {bone=50.0}", "A3 D 7.4p 1+ 250 kg {bone=49.0}");
        assertThat(words(sheet.problems()))
                .containsExactly(
                        "t.csv line 5, Kat: category \"3\" is none of the codes 1 2 9 of layout l.csv [3]",
                        "t.csv line 5, Conf: conformation position 19 is outside 1 to 18 points [19]",
                        "t.csv line 5, Fat: fat position 0 is outside 1 to 15 points [0]",
                        "t.csv line 6, Conf: \"x\" is not a plain number such as 342.5 [x]");
        assertThat(sheet).hasToString("t.csv: 2 trials, 4 problems, 1 carcass left out as declared");
    }

    @Test
    void badRowsAreNamedAndTheOthersRead() {
        TrialSheet sheet = read(
                NEEDED + COLD + "B,bone,,,,\nF1,fat-trim,,,,\nF2,fat-trim,,,,\n",
                GRADED + "B,F1,F2\n"
                        + "A1,C,R=,3+,342,60,,\n"
                        + "A1,C,R=,3+,342,60,,\n"
                        + ",C,R=,3+,342,60,,\n"
                        + "A3,C,R=,3+,342,-1,,\n"
                        + "A4,C,R=,3+,342,60,20,\n"
                        + "A5,C,R=,3+,342,,,\n"
                        + "A6,C,R=,3+,4000,60,,\n"
                        + "A7,C,R=,3+,342,1300,,\n"
                        + "A8,C,R=,3+,342,60,20,0\n");

        assertThat(sheet.trials()).extracting(Trial::id).containsExactly("A8");
        assertThat(words(sheet.problems()))
                .containsExactly(
                        "t.csv line 3, Id: a trial of this carcass stands above [A1]",
                        "t.csv line 4, Id: every row names a carcass",
                        "t.csv line 5, B: a weight is 0 or more; blank if it was not weighed [-1]",
                        "t.csv line 6, F2: the column is blank, but others that hold fat-trim are not; where blank is 0, the"
                                + " layout says so",
                        "t.csv line 7, Id: nothing was weighed of carcass A5 [A5]",
                        "t.csv line 8, Id: cold weight 4000 kg is not above 0 and at most 1200 kg [A6]",
                        "t.csv line 9, Id: carcass A7: bone weighs 1300 kg; a weight is at most 1200 kg [A7]");
    }

    @Test
    void aBlankIsZeroWhereThatIsDeclaredAndAnythingElseWasWeighed() {
        TrialSheet sheet = read(
                NEEDED + COLD + ",blank,,,0,\n,missing,,,NA,\nB,bone,,,,\nF1,fat-trim,,,,\nF2,fat-trim,,,,\n",
                GRADED + "B,F1,F2\nA1,C,R=,3+,342,60,20,NA\nA2,C,R=,3+,342,60,,\nA3,C,R=,3+,342,NA,,\n");

        assertThat(kg(sheet))
                .containsExactly(
                        "A1 C R= 3+ 342 kg {bone=60.0, fat-trim=20.0}", "A2 C R= 3+ 342 kg {bone=60.0, fat-trim=0.0}");
        assertThat(words(sheet.problems())).containsExactly("t.csv line 4, Id: nothing was weighed of carcass A3 [A3]");
    }

    @Test
    void twoSidesMakeACarcass() {
        String layout = NEEDED + SIDES + "Kg,side_weight_kg,,,,\nS,side,,,,\nB,bone,,,,\n";
        String trials = GRADED + "S,B\n"
                + "A1,C,R=,3+,170,l,30\nA2,C,R=,3+,160,l,28\nA1,C,R=,3+,172,r,31\nA3,C,R=,3+,,l,31\nA4,C,R=,3+,170,,31\n";

        TrialSheet sheet = read(layout, trials);
        assertThat(kg(sheet)).containsExactly("A1 C R= 3+ 342 kg {bone=61.0}");
        assertThat(words(sheet.problems()))
                .containsExactly(
                        "t.csv line 3, Id: carcass A2 has rows of one side; if one stands for both, the layout says so:"
                                + " one-side doubled [A2]",
                        "t.csv line 5, Kg: the weight of the side is missing",
                        "t.csv line 6, S: every row names its side");
        assertThat(kg(read(layout + ",one-side,,,doubled,\n", trials)))
                .containsExactly("A1 C R= 3+ 342 kg {bone=61.0}", "A2 C R= 3+ 320 kg {bone=56.0}");
    }

    @Test
    void rowsOfACarcassSayTheSame() {
        String layout = NEEDED + SIDES + COLD + "S,side,,,,\nD,day,,,,\nB,bone,,,,\nL,loss,,,,\n";
        assertThat(problems(
                        layout,
                        GRADED + "S,D,B,L\n"
                                + "A1,C,R=,3+,342,l,2026-11-02,30,\nA1,A,O=,3-,343,r,2026-11-03,30,\n"
                                + "A2,C,R=,3+,342,l,2026-11-02,30,\nA2,C,R=,3+,342,l,2026-11-02,30,\n"
                                + "A3,C,R=,3+,342,l,2026-11-02,30,\nA3,C,R=,3+,342,r,2026-11-02,30,1\n"
                                + "A4,C,R=,3+,342,l,2026-11-02,30,\nA4,C,R=,3+,342,r,2026-11-02,30,\nA4,C,R=,3+,342,m,2026-11-02,30,\n"
                                + "A5,C,R=,3+,342,l,2026-11-02,30,\nA5,C,R=,3+,342,r,2026-11-02,x,\n"))
                .containsExactly(
                        "t.csv line 3, Kat: category of carcass A1 is A here and C in line 2; its rows say the same [A]",
                        "t.csv line 3, Conf: conformation of carcass A1 is O= here and R= in line 2; its rows say the same"
                                + " [O=]",
                        "t.csv line 3, Fat: fat_class of carcass A1 is 3- here and 3+ in line 2; its rows say the same [3-]",
                        "t.csv line 3, Kg: cold_weight_kg of carcass A1 is 343 kg here and 342 kg in line 2; its rows say the"
                                + " same [343 kg]",
                        "t.csv line 3, D: day of carcass A1 is 2026-11-03 here and 2026-11-02 in line 2; its rows say the same [2026-11-03]",
                        "t.csv line 5, S: side l of carcass A2 stands in line 4 already [l]",
                        "t.csv line 7, Id: loss of carcass A3 was weighed here or in line 6 only; what is weighed of one side"
                                + " is weighed of the other [A3]",
                        "t.csv line 10, Id: carcass A4 has 3 rows; a whole one has 2, one a side [A4]",
                        "t.csv line 11, Id: carcass A5 is not made of this row alone: line 12 of it can't be used [A5]",
                        "t.csv line 12, B: \"x\" is not a plain number such as 342.5 [x]");
    }

    @Test
    void aCarcassIsLeftOutAsAWhole() {
        TrialSheet sheet = read(
                NEEDED.replace("Kat,category,,,,", "Kat,category,,C,C,\nKat,category,,X,leave-out,") + SIDES + COLD
                        + "B,bone,,,,\n",
                GRADED + "B\nA1,C,R=,3+,342,30\nA1,X,R=,3+,342,30\nA2,X,R=,3+,342,30\nA2,X,R=,3+,342,30\n");

        assertThat(words(sheet.problems()))
                .containsExactly(
                        "t.csv line 2, Id: carcass A1 is not made of this row alone: line 3 of it is left out [A1]");
        assertThat(sheet.trials()).isEmpty();
        assertThat(sheet.leftOut()).isEqualTo(2);
    }

    @Test
    void sharesAreOfWhatWentToTheKnifeOrOfTheCarcass() {
        String layout = NEEDED + SIDES + COLD
                + ",one-side,,,doubled,\nQF,cutting_weight_kg,fore,,,\nQH,cutting_weight_kg,hind,,,\n"
                + "F,bone,fore,,,\nH,bone,hind,,,\n";
        String trials = GRADED + "QF,QH,F,H\n"
                + "A1,C,R=,3+,300,80,60,12,9\nA1,C,R=,3+,300,80,60,12,9\nA2,C,R=,3+,300,80,60,12,9\n"
                + "A3,C,R=,3+,300,80,,12,\n";

        TrialSheet scaled = read(layout, trials);
        assertThat(kg(scaled)).containsExactly("A1 C R= 3+ 300 kg {bone=45.0}", "A2 C R= 3+ 300 kg {bone=45.0}");
        Quarter fore = scaled.trials().get(0).quarters().get(0);
        assertThat(fore.name()).isEqualTo("fore");
        assertThat(fore.coldKg()).isCloseTo(300 * 80 / 140.0, within(1e-9));
        assertThat(words(scaled.problems()))
                .containsExactly("t.csv line 5, QH: what went to the knife of the hind is missing");
        TrialSheet asWeighed = read(layout + ",shares-of,,,carcass,\n", trials);
        assertThat(kg(asWeighed)).containsExactly("A1 C R= 3+ 300 kg {bone=42.0}", "A2 C R= 3+ 300 kg {bone=42.0}");
        assertThat(asWeighed.trials().get(1).quarters())
                .extracting(Quarter::coldKg)
                .containsExactly(160.0, 120.0);
    }

    @Test
    void whatWentToTheKnifeIsAboutTheCarcass() {
        String layout = NEEDED + SIDES + COLD + ",one-side,,,doubled,\nQ,cutting_weight_kg,,,,\nB,bone,,,,\n";
        TrialSheet sheet = read(
                layout, GRADED + "Q,B\nA1,C,R=,3+,300,134.9,24\nA2,C,R=,3+,300,135.1,27.02\nA3,C,R=,3+,300,0,24\n");

        assertThat(sheet.trials()).extracting(Trial::id).containsExactly("A2");
        assertThat(sheet.trials().get(0).kg().get("bone")).isCloseTo(60, within(1e-9));
        assertThat(words(sheet.problems()))
                .containsExactly(
                        "t.csv line 2, Id: of carcass A1 269.8 kg went to the knife, both sides together, and its cold weight"
                                + " is 300.0 kg; at most 10 % may lie between them [A1]",
                        "t.csv line 4, Q: what went to the knife is missing [0]");
        assertThat(kg(read(layout.replace(COLD, ""), "Id,Kat,Conf,Fat,Q,B\nA1,C,R=,3+,134.9,24\n")))
                .containsExactly("A1 C R= 3+ 269.8 kg {bone=48.0}");
    }

    @Test
    void fourQuartersMakeACarcassAndTwoASide() {
        String layout = NEEDED + ",rows,,,quarter,\n,one-side,,,doubled,\nQ,quarter,,V,fore,\nQ,quarter,,H,hind,\n"
                + "W,cutting_weight_kg,,,,\nB,bone,,,,\n";
        TrialSheet sheet = read(layout, """
                        Id,Kat,Conf,Fat,Q,W,B
                        A1,C,R=,3+,V,80,12
                        A1,C,R=,3+,H,60,9
                        A1,C,R=,3+,H,61,9
                        A1,C,R=,3+,V,81,13
                        A2,C,R=,3+,V,80,12
                        A2,C,R=,3+,H,60,9
                        A3,C,R=,3+,V,80,12
                        A3,C,R=,3+,H,60,9
                        A3,C,R=,3+,H,60,9
                        A4,C,R=,3+,Z,80,12
                        """);

        assertThat(kg(sheet)).containsExactly("A1 C R= 3+ 282 kg {bone=43.0}", "A2 C R= 3+ 280 kg {bone=42.0}");
        assertThat(sheet.trials().get(0).quarters())
                .extracting(quarter -> quarter.name() + " " + quarter.coldKg() + " " + quarter.kg())
                .containsExactly("fore 161.0 {bone=25.0}", "hind 121.0 {bone=18.0}");
        assertThat(words(sheet.problems()))
                .containsExactly(
                        "t.csv line 10, Id: carcass A3 has 1 row of a fore, 2 rows of a hind; a whole one has 2 of each, one"
                                + " side has 1 of each [A3]",
                        "t.csv line 11, Q: quarter \"Z\" is none of the codes V H of layout l.csv [Z]");
    }

    @Test
    void everyColumnIsDeclaredAndEveryDeclaredOneThere() {
        String layout = NEEDED + COLD + "X12.rib,bone,,,,\nX,ignored,,,,\n";
        assertThat(refused(layout, GRADED + "12-rib,Breed\n"))
                .containsExactly(
                        "t.csv line 1, 12-rib: layout l.csv doesn't say what the column \"12-rib\" holds; a row there says it,"
                                + " or that it is ignored",
                        "t.csv line 1, Breed: layout l.csv doesn't say what the column \"Breed\" holds; a row there says it,"
                                + " or that it is ignored",
                        "t.csv line 1, X12.rib: the column \"X12.rib\" is missing, which layout l.csv has in line 7");
        String inR = layout + ",names,,,as-in-r,\n";
        assertThat(kg(read(inR, GRADED + "12-rib\nA1,C,R=,3+,342,60\n")))
                .containsExactly("A1 C R= 3+ 342 kg {bone=60.0}");
        assertThat(kg(read(inR, GRADED + "X12.rib\nA1,C,R=,3+,342,60\n")))
                .containsExactly("A1 C R= 3+ 342 kg {bone=60.0}");
        assertThat(refused(inR, GRADED + "12-rib,12 rib\n"))
                .containsExactly("t.csv line 1, 12 rib: R calls another column \"X12.rib\" too; rename one of them");
        assertThat(problems(inR, GRADED + "12-rib\n"))
                .containsExactly("t.csv: the file has a header but no row; a row for each carcass is needed");
    }

    @Test
    void groupsOfALayoutGoWithItsTrials() {
        String layout = NEEDED + COLD + ",group,,rounds,topside+silverside,\nR,rounds,,,,\n";
        TrialLayout laidOut = TrialLayoutReader.read(source("l.csv", layout), CsvForm.standard(), SHIPPED);
        TrialSheet sheet =
                TrialReader.read(source("t.csv", GRADED + "R\nA1,C,R=,3+,342,46\n"), CsvForm.standard(), laidOut);

        assertThat(TrialSet.of(SHIPPED, SHIPPED.specification("steaks"), laidOut.groups(), sheet.trials())
                        .accepted())
                .hasSize(1);
    }
}
