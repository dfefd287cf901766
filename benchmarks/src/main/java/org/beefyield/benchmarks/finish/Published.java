package org.beefyield.benchmarks.finish;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.finish.Assumptions;
import org.beefyield.finish.NetEnergy;
import org.beefyield.finish.Quantity;

/**
 * A published figure beside ours.
 *
 * @param group the animals, and where they are published
 * @param figure what is compared
 * @param unit its unit
 * @param published the published figure, or the middle of its range; NaN if it couldn't be read
 * @param low lower end of what was published for it, NaN if one figure was
 * @param high upper end
 * @param ours what the assumptions, the energy or the table give
 * @param why what the difference comes from
 */
record Published(
        String group, String figure, String unit, double published, double low, double high, double ours, String why) {
    static final String HEADER =
            "group,figure,unit,published,published_low,published_high,ours,ours_less_published_percent,within,why";

    private static final double SHARE = Assumptions.shipped().value(Quantity.CARCASS_SHARE_OF_GAIN);
    private static final double FAT_A_DAY = Assumptions.shipped().value(Quantity.FAT_POINTS_PER_DAY);
    private static final double SHAPE_A_KG = Assumptions.shipped().value(Quantity.CONFORMATION_POINTS_PER_KG);
    private static final double NONE = Double.NaN;

    static List<Published> rows() {
        List<Published> rows = new ArrayList<>();
        rows.addAll(growth());
        rows.addAll(grades());
        rows.addAll(feed());
        rows.addAll(composition());
        rows.add(new Published(
                "bulls of five breeds (Bonesmo, Nordang and Davies 2010, Agricultural and Food Science 19, 101-115)",
                "best slaughter age and carcass weight by concentrate level",
                "days, kg",
                NONE,
                NONE,
                NONE,
                NONE,
                "its abstract alone could be read, not its tables: nothing is set beside them; it says that Limousin leave"
                        + " most a day and Hereford least at all but the lowest levels of concentrate, and that feeding more of it near"
                        + " finish pays for all five"));
        return rows;
    }

    private static List<Published> growth() {
        String mcgee = "72 steers and bulls of three crosses (McGee and others 2005)";
        return List.of(
                new Published(
                        mcgee,
                        "carcass gained, Holstein: 830 g of live gain",
                        "g a day",
                        540,
                        533,
                        585,
                        830 * SHARE,
                        ""),
                new Published(
                        mcgee,
                        "carcass gained, Friesian: 811 g of live gain",
                        "g a day",
                        533,
                        533,
                        585,
                        811 * SHARE,
                        ""),
                new Published(
                        mcgee,
                        "carcass gained, Charolais cross: 859 g of live gain",
                        "g a day",
                        585,
                        533,
                        585,
                        859 * SHARE,
                        ""),
                new Published(
                        "865 Korean cattle of 371 to 743 kg (Rural Development Administration)",
                        "carcass in a kg of extra live weight",
                        "kg",
                        0.668,
                        NONE,
                        NONE,
                        SHARE,
                        ""),
                new Published(
                        "180 Holstein bulls of 300 to 550 kg (Kirkland and others 2007)",
                        "carcass gained: 1.31 kg of live gain",
                        "kg a day",
                        0.70,
                        NONE,
                        NONE,
                        1.31 * SHARE,
                        "young dairy bulls far from finish; give their own share"),
                new Published(
                        "steers to appetite 0 to 56 days (PMC6140836, table 7): 361 to 404 kg of carcass at 61.7 and 61.4 %",
                        "carcass gained in 72.9 kg of live gain",
                        "kg",
                        43,
                        NONE,
                        NONE,
                        (404 / 0.614 - 361 / 0.617) * SHARE,
                        "grain-fed steers that were finished before; their killing-out fell"),
                new Published(
                        "250 suckler bulls from 500 kg at 1.4 kg a day, constant (AFBI 2009)",
                        "live weight after 214 days",
                        "kg",
                        800,
                        NONE,
                        NONE,
                        500 + 1.4 * 214,
                        "a constant gain holds over 300 kg"));
    }

    private static List<Published> grades() {
        return List.of(
                new Published(
                        "suckler steers, concentrate to appetite for 75 days against grass alone (Teagasc, Grange)",
                        "fat gained, early and late maturing",
                        "points",
                        2.75,
                        2.5,
                        3,
                        75 * FAT_A_DAY,
                        "the figure that the assumption comes from"),
                new Published(
                        "suckler steers, 5 kg of concentrate at grass for 75 days against grass alone (Teagasc, Grange)",
                        "fat gained, early and late maturing",
                        "points",
                        1.5,
                        1,
                        2,
                        75 * FAT_A_DAY,
                        "the assumption is for concentrate to appetite; give less at grass"),
                new Published(
                        "60 Aberdeen Angus bulls, 15 to 19 months, 265 to 355 kg of carcass (Lenehan and others 2017)",
                        "conformation gained",
                        "points",
                        1.6,
                        NONE,
                        NONE,
                        90 * SHAPE_A_KG,
                        "the figure that the assumption comes from"),
                new Published(
                        "60 Aberdeen Angus bulls, 15 to 19 months, 265 to 355 kg of carcass (Lenehan and others 2017)",
                        "fat gained in 122 days",
                        "points",
                        1.0,
                        NONE,
                        NONE,
                        122 * FAT_A_DAY,
                        "young bulls gain far less fat than steers to appetite; give their own, about 0.008 points a day"));
    }

    private static List<Published> feed() {
        NetEnergy.Diet concentrate = new NetEnergy.Diet(80, NetEnergy.USUAL_GROSS_MJ_PER_KG, 700, 0);
        NetEnergy.Diet silage = new NetEnergy.Diet(70, NetEnergy.USUAL_GROSS_MJ_PER_KG, 650, 0);
        double carcassOfBulls = 1.4 * SHARE;
        return List.of(
                new Published(
                        "250 suckler bulls at 1.4 kg a day (AFBI 2009)",
                        "dry matter a kg of carcass at 500 kg; ours at 80 % digestible and mature 700 kg",
                        "kg",
                        8.9,
                        8.9,
                        9.6,
                        concentrate.dryMatterKg(Category.YOUNG_BULL, 500, 1.4) / carcassOfBulls,
                        "digestibility and mature weight are ours, not theirs"),
                new Published(
                        "250 suckler bulls at 1.4 kg a day (AFBI 2009)",
                        "dry matter a kg of carcass at 800 kg; ours at 80 % digestible and mature 700 kg",
                        "kg",
                        9.6,
                        8.9,
                        9.6,
                        concentrate.dryMatterKg(Category.YOUNG_BULL, 800, 1.4) / carcassOfBulls,
                        "by the equations energy rises with weight more than these bulls ate"),
                new Published(
                        "66 steers of 523 kg on silage and concentrate, 92 days (Keady and others 2007)",
                        "dry matter a day at 549 g of carcass gain; ours at 70 % digestible and mature 650 kg, half way",
                        "kg a day",
                        8.76,
                        8.38,
                        9.14,
                        silage.dryMatterKg(Category.STEER, 523 + 46 * 0.549 / SHARE, 0.549 / SHARE),
                        "digestibility and mature weight are ours, not theirs"),
                new Published(
                        "43629 lots in feedlots of the USA, 354 to 619 kg (2014 to 2016)",
                        "dry matter a day at 1.55 kg of gain; ours at 80 % digestible and mature 700 kg, half way",
                        "kg a day",
                        9.97,
                        NONE,
                        NONE,
                        concentrate.dryMatterKg(Category.STEER, (354 + 619) / 2.0, 1.55),
                        "digestibility and mature weight are ours, not theirs"));
    }

    /** Fat in what a carcass gains near finish, by the shipped table. */
    private static List<Published> composition() {
        String keane =
                "120 steers of Friesian, Hereford and Simmental crosses, 121 to 225 days of finishing (Keane and others 1990)";
        List<Published> rows = new ArrayList<>();
        // 44 kg of carcass in 104 days: by the days, and by 0.05 points a kg (suckler steers, Teagasc, Grange)
        double byDays = 104 * FAT_A_DAY;
        double byKg = 44 * 0.05;
        String all =
                "dissected fat is all fat, that between and beside the muscles of the cuts too; the table's fat trim is"
                        + " what is cut away, and meat is sold with the rest";
        String slow =
                "0.0365 points a day is for concentrate to appetite, and these steers gained but 0.42 kg of carcass a"
                        + " day; " + all;
        for (double start : new double[] {290, 320}) {
            String gained = "fat in 44 kg gained from " + String.format(Locale.ROOT, "%.0f", start)
                    + " kg: fat trim, fat rises by ";
            rows.add(new Published(
                    keane, gained + "0.0365 points a day", "%", 45, 45, 52, trim(start, 44, byDays), slow));
            rows.add(new Published(keane, gained + "0.05 points a kg", "%", 45, 45, 52, trim(start, 44, byKg), all));
        }
        rows.add(new Published(
                keane,
                "fat in 14 kg more on more concentrate, from 334 kg: fat trim, fat rises by 0.05 points a kg",
                "%",
                48,
                45,
                52,
                trim(334, 14, 14 * 0.05),
                all));
        String before =
                "120 steers of Friesian, Limousin and Blonde crosses, 94 to 181 days of finishing (Keane and others 1989,"
                        + " Animal Production 48, 353-365)";
        // sides of 185 kg on average, 30.3 kg more of which 15.7 fat: carcasses of 340 to 400 kg
        String longer = "fat in 61 kg gained from 340 kg: fat trim, fat rises by ";
        rows.add(new Published(
                before,
                longer + "0.0365 points a day",
                "%",
                100 * 15.7 / 30.3,
                45,
                52,
                trim(340, 60.6, 87 * FAT_A_DAY),
                all));
        rows.add(new Published(
                before,
                longer + "0.05 points a kg",
                "%",
                100 * 15.7 / 30.3,
                45,
                52,
                trim(340, 60.6, 60.6 * 0.05),
                all));
        // sides 9.6 kg heavier on 6 kg of concentrate in place of 3, of which 5.7 fat
        rows.add(new Published(
                before,
                "fat in 19 kg more on more concentrate, from 360 kg: fat trim, fat rises by 0.05 points a kg",
                "%",
                100 * 5.7 / 9.6,
                NONE,
                NONE,
                trim(360, 19.2, 19.2 * 0.05),
                all));
        return rows;
    }

    private static YieldEstimate estimate(double kg, double fat) {
        return YieldEstimator.of(ShippedTables.boneless2026())
                .estimate(Carcass.of(Category.STEER, Conformation.ofPosition(6.5, 0), FatClass.ofPosition(fat, 0), kg));
    }

    private static final double START_FAT = 7;

    private static double trim(double kg, double gained, double fatter) {
        return 100
                * (estimate(kg + gained, START_FAT + fatter).fatTrimKg()
                        - estimate(kg, START_FAT).fatTrimKg())
                / gained;
    }

    /** Whether ours lies within what was published, or a tenth of it. */
    boolean isWithin() {
        return Double.isNaN(low) ? Math.abs(ours - published) <= 0.1 * published : ours >= low && ours <= high;
    }

    String line() {
        boolean read = !Double.isNaN(published);
        return Stream.of(
                        quoted(group),
                        quoted(figure),
                        quoted(unit),
                        cell(published),
                        cell(low),
                        cell(high),
                        cell(ours),
                        read ? String.format(Locale.ROOT, "%.1f", 100 * (ours / published - 1)) : "",
                        read ? (isWithin() ? "yes" : "no") : "",
                        quoted(why))
                .reduce((first, second) -> first + "," + second)
                .orElseThrow();
    }

    private static String quoted(String text) {
        return "\"" + text + "\"";
    }

    private static String cell(double value) {
        return Double.isNaN(value) ? "" : String.format(Locale.ROOT, "%.3f", value);
    }
}
