package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.Engine;
import org.beefyield.table.RandomTables;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class LotEstimateTest {
    private static final String NOT_STATED =
            "errors that carcasses of a lot, a run or a hall have in common aren't in these intervals: the table states none";

    private static final YieldTable SMALL = YieldTable.of(TestTables.small());
    private static final YieldTable THREE = YieldTable.of(TestTables.threeLevels());

    private static Carcass steer(String conformation, String fatClass, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }

    private static List<Carcass> mixedLot(int size) {
        Random random = new Random(11);
        List<Carcass> lot = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            lot.add(RandomTables.carcass(THREE.definition(), random));
        }
        return lot;
    }

    @Test
    void aLotKnowsItsMeanGradesAndCategories() {
        List<Carcass> carcasses = new ArrayList<>(mixedLot(40));
        carcasses.add(Carcass.of(Category.STEER, Conformation.ofPosition(7.4, 0), FatClass.ofPosition(6.25, 0), 340));
        carcasses.add(steer("U", "4L", 360));
        LotEstimate lot = YieldEstimator.of(THREE).estimateLot(carcasses);

        assertThat(lot.meanConformation())
                .isCloseTo(
                        carcasses.stream()
                                .mapToDouble(carcass -> carcass.conformation().position())
                                .average()
                                .orElseThrow(),
                        within(1e-12));
        assertThat(lot.meanFat())
                .isCloseTo(
                        carcasses.stream()
                                .mapToDouble(carcass -> carcass.fatClass().position())
                                .average()
                                .orElseThrow(),
                        within(1e-12));
        assertThat(lot.categories())
                .isEqualTo(carcasses.stream().collect(Collectors.groupingBy(Carcass::category, Collectors.counting())));
    }

    @Test
    void aLotIsTheSumOfItsEstimates() {
        YieldEstimator estimator = YieldEstimator.of(THREE);
        List<Carcass> carcasses = mixedLot(60);
        LotEstimate lot = estimator.estimateLot(carcasses);
        assertThat(lot.carcasses()).isEqualTo(60);
        assertThat(lot.coldWeightKg())
                .isCloseTo(carcasses.stream().mapToDouble(Carcass::coldWeightKg).sum(), within(1e-9));
        for (String level : THREE.levels()) {
            for (Cut cut : Engine.layout(THREE).cutsAt(Engine.layout(THREE).levelIndex(level))) {
                assertThat(lot.kg(level, cut.code()))
                        .as(cut.code() + " at " + level)
                        .isCloseTo(
                                carcasses.stream()
                                        .mapToDouble(carcass ->
                                                estimator.estimate(carcass).kg(level, cut.code()))
                                        .sum(),
                                within(1e-9));
            }
            assertThat(lot.lines(level).stream().mapToDouble(CutLine::kg).sum())
                    .isCloseTo(lot.coldWeightKg(), within(1e-9));
        }
        assertThat(lot.quarters("10-rib forequarter").foreKg())
                .isCloseTo(
                        carcasses.stream()
                                .mapToDouble(carcass -> estimator
                                        .estimate(carcass)
                                        .quarters("10-rib forequarter")
                                        .foreKg())
                                .sum(),
                        within(1e-9));
    }

    @Test
    void aPieceOfALotIsTheMeanOfItsCarcasses() {
        YieldEstimator estimator = YieldEstimator.of(SMALL);
        List<Carcass> carcasses = List.of(steer("R=", "3=", 300), steer("U=", "2=", 380), steer("O=", "4=", 330));
        assertThat(estimator.estimateLot(carcasses).pieceKg("hind").getAsDouble())
                .isCloseTo(
                        carcasses.stream()
                                .mapToDouble(carcass -> estimator
                                        .estimate(carcass)
                                        .pieceKg("hind")
                                        .getAsDouble())
                                .average()
                                .orElseThrow(),
                        within(1e-9));
        assertThat(estimator.estimateLot(carcasses).pieceKg("fore")).isEmpty();
    }

    private static void areTheSame(LotEstimate lot, LotEstimate expected) {
        assertThat(lot.specification()).isEqualTo(expected.specification());
        assertThat(lot.carcasses()).isEqualTo(expected.carcasses());
        assertThat(lot.counts()).isEqualTo(expected.counts());
        assertThat(lot.rangeNotes()).isEqualTo(expected.rangeNotes());
        assertThat(lot.outsideFitted()).isEqualTo(expected.outsideFitted());
        assertThat(lot.meanConformation()).isEqualTo(expected.meanConformation());
        for (String level : THREE.levels()) {
            assertThat(lot.lines(level)).isEqualTo(expected.lines(level));
            for (CutLine line : lot.lines(level)) {
                assertThat(line.interval(0.9)).isEqualTo(expected.interval(level, line.code(), 0.9));
            }
        }
        assertThat(lot.toText()).isEqualTo(expected.toText());
    }

    @Test
    void aLotUnderAnotherSpecificationIsToTheLastBitTheLotCollectedUnderIt() {
        List<Carcass> carcasses = new ArrayList<>(mixedLot(200));
        carcasses.add(Carcass.of(Category.STEER, Conformation.ofPosition(7.4, 0), FatClass.ofPosition(6.25, 0), 340));
        YieldEstimator steaks =
                YieldEstimator.of(THREE).with(MinceTarget.fatPercent(15)).with(new ScaleError(0.5, 0.2));
        LotEstimate lot = steaks.estimateLot(carcasses);
        LotEstimate joints = steaks.withSpecification("joints").estimateLot(carcasses);

        areTheSame(lot.under("joints"), joints);
        areTheSame(
                lot.under(THREE.specification("steaks").with("rump", "joints")),
                steaks.with("rump", "joints").estimateLot(carcasses));
        areTheSame(lot.under("joints").under("steaks"), lot);
        areTheSame(lot.under("joints").plus(joints), joints.plus(joints));
        assertThat(lot.under("joints").kg(CutKind.STEAK)).isZero();
    }

    @Test
    void aSpecificationOfAnotherTableIsRefusedWithTheWaysThereAre() {
        LotEstimate lot = YieldEstimator.of(THREE).estimateLot(mixedLot(3));
        assertThatThrownBy(() -> lot.under(CuttingSpecification.of(
                        "theirs", Map.of("striploin", "minute", "rump", "joints", "chuck", "dice"))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no way \"minute\" of striploin; its ways: joints, steaks");
        assertThatThrownBy(() -> lot.under(CuttingSpecification.NONE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("table three-levels needs a cutting specification: no way is given for striploin (joints,"
                        + " steaks), rump (joints, steaks), chuck (dice, trim)");
        assertThatThrownBy(() -> lot.under("trim"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no cutting specification \"trim\" in table three-levels; it has steaks, joints");
    }

    @Test
    void theCollectorHandsOutTheLotSoFar() {
        LotEstimate.Collector collector = YieldEstimator.of(SMALL).collector();
        collector.add(steer("R=", "3=", 340));
        LotEstimate one = collector.lot();
        collector.add(steer("R=", "3=", 340));
        assertThat(collector.lot().kg("meat")).isCloseTo(476, within(1e-12));
        // a lot that was taken does not grow with the next carcass
        assertThat(one.kg("meat")).isCloseTo(238, within(1e-12));
        assertThat(one.carcasses()).isEqualTo(1);
    }

    @Test
    void aRefusedCarcassLeavesTheLotAsItWas() {
        LotEstimate.Collector collector = YieldEstimator.of(SMALL).collector();
        collector.add(steer("R=", "3=", 340));
        assertThatThrownBy(() -> collector.add(steer("R=", "3=", 800))).isInstanceOf(RefusedCarcassException.class);
        assertThatThrownBy(() ->
                        collector.add(Carcass.of(Category.CALF, Conformation.parse("R="), FatClass.parse("3="), 160)))
                .isInstanceOf(RefusedCarcassException.class);
        LotEstimate lot = collector.lot();
        assertThat(lot.carcasses()).isEqualTo(1);
        assertThat(lot.coldWeightKg()).isEqualTo(340);
        assertThat(lot.kg("meat")).isCloseTo(238, within(1e-12));
        assertThat(lot.outsideFitted()).isZero();
    }

    @Test
    void aLotWithARefusedCarcassIsRefused() {
        assertThatThrownBy(() ->
                        YieldEstimator.of(SMALL).estimateLot(List.of(steer("R=", "3=", 340), steer("R=", "3=", 100))))
                .isInstanceOf(RefusedCarcassException.class)
                .hasMessage("cold weight 100 kg is 50 kg outside the allowed range 150 to 600 kg");
    }

    @Test
    void aLotWithoutCarcassesIsRefused() {
        YieldEstimator estimator = YieldEstimator.of(SMALL);
        assertThatThrownBy(() -> estimator.estimateLot(List.of()))
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("a lot has at least one carcass");
        assertThatThrownBy(() -> estimator.collector().lot()).isInstanceOf(IllegalStateException.class);
    }

    @Test
    void carcassesOutsideTheFittedRangeAreCounted() {
        LotEstimate lot = YieldEstimator.of(SMALL)
                .estimateLot(List.of(
                        steer("R=", "3=", 340),
                        // outside in all three, counted once
                        steer("S+", "5+", 590),
                        steer("R=", "1-", 340)));
        assertThat(lot.outsideFitted()).isEqualTo(2);
        assertThat(lot.notes())
                .containsExactly(
                        "1 carcass: conformation S+ is 4 points outside the fitted range P= to E=",
                        "2 carcasses outside the fitted range in fat; the farthest: fat class 1- is 2 points outside the"
                                + " fitted range 1+ to 5-",
                        "1 carcass: cold weight 590 kg is 90 kg outside the fitted range 230 to 500 kg",
                        NOT_STATED);
        assertThat(YieldEstimator.of(SMALL)
                        .estimateLot(List.of(steer("R=", "1-", 340), steer("S+", "5+", 590), steer("R=", "3=", 340))))
                .as("in another order")
                .isEqualTo(lot);
        assertThat(YieldEstimator.of(SMALL)
                        .estimateLot(List.of(steer("R=", "3=", 340)))
                        .notes())
                .containsExactly(NOT_STATED);
    }

    @Test
    void theWholeText() {
        LotEstimate lot = YieldEstimator.of(SMALL).estimateLot(List.of(steer("R=", "3=", 340), steer("R=", "1-", 360)));
        // kg of the first: meat 238 (fore primal 133.28), fat trim 37.4, bone 62.56, loss 2.04
        // g/kg of the second, 7 points leaner and 20 kg heavier: meat 764 (fore primal 561.6 of it), fat trim 33, bone
        // 197,
        // loss 6; kg: 275.04 (154.463), 11.88, 70.92, 2.16
        // 90 %: 1.64485 SDs to each side; that of both is the root of the sum of squares of 340 and 360 kg times each
        // SD
        // kg of both: 513.04 (287.743 and 225.297), 49.28, 133.48, 4.20
        assertThat(lot.toText()).isEqualTo("""
                Lot of 2 carcasses, 700.0 kg cold
                Table IDENTITY

                tissue level     kg  % of cold weight  90 % interval, kg: low   high
                --------------------------------------------------------------------
                Meat          513.0              73.3                   496.8  529.3
                Fat trim       49.3               7.0                    33.0   65.6
                Bone          133.5              19.1                   125.3  141.6
                Loss            4.2               0.6                     3.4    5.0
                --------------------------------------------------------------------
                Total         700.0             100.0

                90 % sure of what will be weighed: how carcasses of one grade differ

                primal level     kg  % of cold weight  90 % interval, kg: low   high
                --------------------------------------------------------------------
                Fore primal   287.7              41.1                   278.1  297.4
                Hind primal   225.3              32.2                   217.5  233.1
                Fat trim       49.3               7.0                    33.0   65.6
                Bone          133.5              19.1                   125.3  141.6
                Loss            4.2               0.6                     3.4    5.0
                --------------------------------------------------------------------
                Total         700.0             100.0

                Note: 1 carcass: fat class 1- is 2 points outside the fitted range 1+ to 5-
                Note: NOT_STATED
                100 % of the saleable weight rests on figures that the maker of the table assumed: 100 % at tissue level and \
                100 % at primal level, some of it at both
                PLANNING
                RISK
                """.replace("IDENTITY", SMALL.identity())
                .replace("NOT_STATED", NOT_STATED)
                .replace("PLANNING", Cautions.PLANNING)
                .replace("RISK", Cautions.RISK_MATERIAL));
    }

    @Test
    void theOneLineFormTellsNumberWeightMeatAndTable() {
        LotEstimate lot = YieldEstimator.of(SMALL).estimateLot(List.of(steer("R=", "3=", 340), steer("R=", "3=", 340)));
        assertThat(lot).hasToString("2 carcasses, 680.0 kg cold: meat 476.0 kg (" + SMALL.identity() + ")");
        assertThat(YieldEstimator.of(SMALL)
                        .estimateLot(List.of(steer("R=", "3=", 340)))
                        .toText())
                .startsWith("Lot of 1 carcass, 340.0 kg cold\n");
    }

    @Test
    void theCapOfTheMinceWorksOnTheLot() {
        // one kind of carcass has fat trim to spare, the other too little: together there is enough
        YieldTable table =
                MinceTest.table(new MinceTest.Trims(0.3, 10, 0.02, 70), "B", new MinceTest.Trims(0.3, 10, 0.2, 70));
        YieldEstimator estimator = YieldEstimator.of(table).with(MinceTarget.fatPercent(20));
        Carcass poor = steer("R=", "3=", 300);
        Carcass rich = Carcass.of(Category.BULL, Conformation.parse("R="), FatClass.parse("3="), 300);
        // 90 kg of lean trim want 18 kg of fat trim; the steer has 6
        assertThat(estimator.estimate(poor).mince().orElseThrow().fatTrimKg()).isCloseTo(6, within(1e-9));
        assertThat(estimator.estimate(rich).mince().orElseThrow().fatTrimKg()).isCloseTo(18, within(1e-9));
        LotEstimate lot = estimator.estimateLot(List.of(poor, rich));
        Mince mince = lot.mince().orElseThrow();
        assertThat(mince.fatTrimKg()).isCloseTo(36, within(1e-9));
        assertThat(mince.fat()).isCloseTo(0.20, within(1e-12));
        assertThat(lot.notes()).isEmpty();
        assertThat(lot.fatTrimKg()).isCloseTo(6 + 60 - 36, within(1e-9));
        assertThat(lot.lines("cut").stream().mapToDouble(CutLine::kg).sum()).isCloseTo(600, within(1e-9));
        assertThat(lot.kg(CutKind.MINCE)).isCloseTo(216, within(1e-9));
        // and where the lot as a whole runs out, it says so
        LotEstimate poorLot = estimator.estimateLot(List.of(poor, poor));
        assertThat(poorLot.mince().orElseThrow().fatTrimKg()).isCloseTo(12, within(1e-9));
        assertThat(poorLot.notes()).hasSize(1);
        assertThat(poorLot.fatTrimKg()).isCloseTo(0, within(1e-9));
    }

    private static byte[] written(Object object) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(object);
        }
        return bytes.toByteArray();
    }

    private static Object read(byte[] bytes) throws IOException, ClassNotFoundException {
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes))) {
            return in.readObject();
        }
    }

    @Test
    void aLotTravelsByItsPowerSumsAndAddsUpWhereItArrives() throws IOException, ClassNotFoundException {
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()))
                .with(MinceTarget.fatPercent(20))
                .with(new ScaleError(0.5, 0.2));
        List<Carcass> some = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            some.add(Carcass.of(
                    i % 3 == 0 ? Category.HEIFER : Category.STEER,
                    i % 5 == 0 ? Conformation.ofPosition(7.3, 0.5) : Conformation.parse("R+"),
                    FatClass.parse(i % 7 == 0 ? "4L" : "3"),
                    250 + 1.1 * i));
        }
        some.add(Carcass.of(Category.STEER, Conformation.parse("S="), FatClass.parse("3="), 340));
        LotEstimate lot = estimator.estimateLot(some);
        byte[] bytes = written(lot);

        LotEstimate arrived = (LotEstimate) read(bytes);

        assertThat(bytes.length).isLessThan(30_000);
        assertThat(arrived).hasToString(lot.toString());
        assertThat(arrived.toText()).isEqualTo(lot.toText());
        assertThat(arrived.counts()).isEqualTo(lot.counts());
        assertThat(arrived.outsideFitted()).isEqualTo(lot.outsideFitted()).isPositive();
        assertThat(arrived.notes()).isEqualTo(lot.notes());
        for (Cut cut : estimator.yields("retail")) {
            assertThat(arrived.kg(cut.code())).isEqualTo(lot.kg(cut.code()));
            assertThat(arrived.sd(cut.code())).isEqualTo(lot.sd(cut.code()));
        }
        assertThat(arrived.plus((LotEstimate) read(bytes)).toText())
                .isEqualTo(lot.plus(lot).toText());
        assertThat(arrived.plus(lot).toText()).isEqualTo(lot.plus(lot).toText());
    }

    @Test
    void lotsThatTravelTogetherTakeTheirEstimatorAlongOnce() throws IOException {
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
        LotEstimate lot = estimator.estimateLot(
                List.of(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340)));
        int one = written(lot).length;

        assertThat(written(new ArrayList<>(List.of(lot, lot.plus(lot), lot.plus(lot)))).length)
                .isLessThan(one + 2_000);
    }
}
