package org.beefyield.data.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.cut.CutKind;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Source;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.PriceList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Price lists and payment grids as files. */
class ValueFilesTest {
    private static final Path EXAMPLES = Path.of("examples");

    private static final String PRICES = "line,name,price,currency\n";

    private static final String GRID = "line,category,conformation,fat_class,from_kg,to_kg,per_kg,currency\n";

    @TempDir
    Path folder;

    private Path file(String content) throws IOException {
        return Files.writeString(folder.resolve("x.csv"), content);
    }

    private List<String> priceProblems(String content) throws IOException {
        Path file = file(content);
        return problems(catchThrowableOfType(InvalidDataException.class, () -> PriceListReader.read(file)));
    }

    private List<String> gridProblems(String content) throws IOException {
        Path file = file(content);
        return problems(catchThrowableOfType(InvalidDataException.class, () -> PaymentGridReader.read(file)));
    }

    private List<String> problems(InvalidDataException refused) {
        return refused.problems().stream()
                .map(problem ->
                        problem.toString().replace(folder.resolve("x.csv").toString(), "x.csv"))
                .toList();
    }

    @Test
    void aPriceListIsReadLineByLine() throws IOException {
        PriceList read = PriceListReader.read(file(PRICES
                + "cut,rump-steak,13.5,EUR\nkind,steak,13,EUR\nkind,bone,-0.05,EUR\nmince,15,5.6,EUR\nmince,,5.2,EUR\n"
                + "per-kg,\"boning, packing\",-0.62,EUR\nper-head,hide,58,EUR\n"));

        assertThat(read)
                .isEqualTo(PriceList.builder("EUR")
                        .cut("rump-steak", 13.5)
                        .kind(CutKind.STEAK, 13)
                        .kind(CutKind.BONE, -0.05)
                        .mince(15, 5.6)
                        .mince(5.2)
                        .otherPerKg("boning, packing", -0.62)
                        .otherPerHead("hide", 58)
                        .build());
    }

    @Test
    void aGridIsReadLineByLine() throws IOException {
        PaymentGrid read = PaymentGridReader.read(file(GRID
                + "base,*,,,,,4.1,EUR\nbase,CE,,,,,4.2,EUR\ngrade,*,,,,,0,EUR\ngrade,*,U+,4L,,,0.3,EUR\n"
                + "weight,D,,,,250,-0.2,EUR\nweight,*,,,400.5,,-0.1,EUR\nspecification,*,,,,,0.12,EUR\n"));

        assertThat(read)
                .isEqualTo(PaymentGrid.builder("EUR")
                        .base(null, 4.1)
                        .base(Category.STEER, 4.2)
                        .base(Category.HEIFER, 4.2)
                        .grade(null, null, null, 0)
                        .grade(null, Conformation.parse("U+"), FatClass.parse("4L"), 0.3)
                        .weight(Category.COW, null, 250.0, -0.2)
                        .weight(null, 400.5, null, -0.1)
                        .inSpecification(null, 0.12)
                        .build());
    }

    @Test
    void halvesAreReadWhenDeclared() throws IOException {
        Path file = file(GRID + "base,*,,,,,4,EUR\ngrade,*,-U,,,,0.1,EUR\ngrade,*,,,,,0,EUR\n");
        Carcass lower = Carcass.of(Category.STEER, Conformation.parse("U-"), FatClass.parse("3"), 300);

        assertThat(PaymentGridReader.read(Source.of(file), CsvForm.standard(), GradeReading.HALVES)
                        .paid(lower)
                        .perKg())
                .isEqualByComparingTo("4.1");
        assertThat(problems(catchThrowableOfType(InvalidDataException.class, () -> PaymentGridReader.read(file))))
                .containsExactly("x.csv line 3, conformation: conformation \"-U\" has its sign in front, which only the"
                        + " halves reading allows; valid under thirds: U- U= U+");
    }

    @Test
    void theExamplesAreReadAndGoTogether() {
        PriceList prices = PriceListReader.read(EXAMPLES.resolve("tarrowmere-prices.csv"));
        PaymentGrid grid = PaymentGridReader.read(EXAMPLES.resolve("tarrowmere-grid.csv"));

        assertThat(prices.cuts()).containsKeys("fillet-steak", "striploin-steak", "cube-roll-steak");
        assertThat(grid.currency()).isEqualTo(prices.currency());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\'',
            value = {
                "cuts,rump,1,EUR|line 2, line: line \"cuts\" is none of cut kind mince per-kg per-head",
                "cut,,1,EUR|line 2, name: a cut has a name",
                "per-head,,1,EUR|line 2, name: other income or cost has a name",
                "per-kg,,1,EUR|line 2, name: other income or cost has a name",
                "kind,steaks,1,EUR|line 2, name: kind \"steaks\" is none of meat primal steak joint dice lean-trim mince"
                        + " fat-trim bone loss",
                "mince,100,1,EUR|line 2, name: mince fat content 100 % is outside 0 to 100 % (both excluded)",
                "mince,lean,1,EUR|line 2, name: \"lean\" is not a plain number such as 342.5",
                "cut,rump,,EUR|line 2, price: \"\" is not a plain number such as 342.5",
                "cut,rump,free,EUR|line 2, price: \"free\" is not a plain number such as 342.5",
                "cut,rump,2e9,EUR|line 2, price: price of rump 2000000000 is outside -1000000000 to 1000000000",
                "kind,steak,2e9,EUR|line 2, price: price of steak 2000000000 is outside -1000000000 to 1000000000",
                "mince,,-2e9,EUR|line 2, price: price of mince -2000000000 is outside -1000000000 to 1000000000",
                "per-head,hide,2e9,EUR|line 2, price: hide 2000000000 is outside -1000000000 to 1000000000",
                "cut,rump,1,|line 2, currency: every row says its currency, such as EUR",
            })
    void everyFaultOfAPriceIsNamed(String row, String problem) throws IOException {
        assertThat(priceProblems(PRICES + row + "\n")).containsExactly("x.csv " + problem);
    }

    @Test
    void whatIsPricedTwiceOrInTwoCurrenciesIsNamedWithTheOtherLine() throws IOException {
        assertThat(priceProblems(PRICES
                        + "cut,rump,1,EUR\ncut,rump,1,EUR\nmince,15,1,EUR\nmince,15.0,2,EUR\nmince,,1,EUR\nmince,,1,EUR\n"
                        + "per-kg,hide,1,EUR\nper-head,hide,1,EUR\nper-head,hide,2,EUR\nkind,bone,0,EUR\nkind,bone,0,EUR\n"
                        + "cut,fillet,1,GBP\n"))
                .containsExactly(
                        "x.csv line 3, name: the same cut stands in line 2 already; each has one price",
                        "x.csv line 5, name: the same mince stands in line 4 already; each has one price",
                        "x.csv line 7, name: the same mince stands in line 6 already; each has one price",
                        "x.csv line 10, name: the same per-head stands in line 9 already; each has one price",
                        "x.csv line 12, name: the same kind stands in line 11 already; each has one price",
                        "x.csv line 13, currency: currency \"GBP\" differs from \"EUR\" in line 2; a list has one");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\'',
            value = {
                "price,*,,,,,4,EUR|line 4, line: line \"price\" is none of base grade weight specification",
                "grade,,U,,,,1,EUR|line 4, category: every row says its categories, * for all of them",
                "grade,CX,U,,,,1,EUR|line 4, category: category \"X\" is none of C A B D E Z",
                "grade,*,X,,,,1,EUR|line 4, conformation: conformation \"X\" is none of S E U R O P",
                "grade,*,U,6,,,1,EUR|line 4, fat_class: fat class 6 is outside 1 to 5; a position on the 15-point scale"
                        + " belongs in fat_points, in code in FatClass.ofPosition",
                "grade,*,U,3,200,,1,EUR|line 4, from_kg: a grade row leaves from_kg blank",
                "base,C,U,,,,1,EUR|line 4, conformation: a base row leaves conformation blank",
                "weight,*,,3,,250,1,EUR|line 4, fat_class: a weight row leaves fat_class blank",
                "specification,*,,,,250,1,EUR|line 4, to_kg: a specification row leaves to_kg blank",
                "weight,*,,,heavy,,1,EUR|line 4, from_kg: \"heavy\" is not a plain number such as 342.5",
                "weight,*,,,300,250,1,EUR|line 4, line: weight band from 300 to 250 kg holds no weight; two ascending"
                        + " weights are needed",
                "grade,*,U,3,,,,EUR|line 4, per_kg: \"\" is not a plain number such as 342.5",
                "base,*,,,,,4,EUR|line 4, line: base price for every category is given twice: 4.1 and 4",
                "base,CC,,,,,4,EUR|line 4, line: base price for category C is given twice: 4 and 4",
                "grade,*,,,,,1,EUR|line 4, line: grade differences for every category and for every category cover as much"
                        + " as each other and share a part; one of them must be narrower, or go",
                "grade,*,U,,,,1,GBP|line 4, currency: currency \"GBP\" differs from \"EUR\" in line 2; a grid has one",
            })
    void everyFaultOfAGridIsNamed(String row, String problem) throws IOException {
        assertThat(gridProblems(GRID + "base,*,,,,,4.1,EUR\ngrade,*,,,,,0,EUR\n" + row + "\n"))
                .containsExactly("x.csv " + problem);
    }

    @Test
    void everyProblemOfAFileIsFound() throws IOException {
        assertThat(gridProblems(GRID + "base,*,X,,,,free,\ngrade,*,,,,,0,EUR\n"))
                .hasSize(4);
        assertThat(priceProblems(PRICES + "cut,,free,\n\"\n")).hasSize(4);
    }

    @Test
    void aGridWithoutABaseOrAGradeIsRefusedAsAWhole() throws IOException {
        assertThat(gridProblems(GRID + "grade,*,,,,,0,EUR\n"))
                .containsExactly("x.csv: a payment grid needs a base price");
        assertThat(gridProblems(GRID + "base,*,,,,,4,EUR\n"))
                .containsExactly(
                        "x.csv: a payment grid needs a grade difference; one price for all grades is a difference"
                                + " of 0 for every conformation and fat class");
    }

    @Test
    void otherColumnsAndEmptyFilesAreRefused() throws IOException {
        assertThat(priceProblems("line,name,prize,currency\ncut,a,1,EUR\n"))
                .containsExactly(
                        "x.csv line 1, price: the column \"price\" is missing; columns: line, name, price, currency",
                        "x.csv line 1, prize: there is no column \"prize\"; columns: line, name, price, currency");
        assertThat(priceProblems(PRICES)).containsExactly("x.csv: the file has a header but no row");
        assertThat(gridProblems(GRID)).containsExactly("x.csv: the file has a header but no row");
    }
}
