package org.beefyield.data.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.definition.BreakdownRow;

/**
 * Writes the boning trials of the invented Tarrowmere hall: 300 carcasses on 25 days of two seasons, every primal, fat trim
 * and bone weighed. The hall trims harder than the shipped table has it and cuts its chuck longer; on 19 March its bone
 * scale reads 5 % too little, and six carcasses have a box missing. Then 40 striploins that were cut to steaks: it trims
 * these harder too, the more the fatter the carcass. All of that is invented. The same seed gives the same bytes everywhere.
 *
 * <p>To write them anew, run {@link #main(String[])} with the folder {@code yield-data/examples}.
 */
public final class TarrowmereTrials {
    /** Name of the file. */
    public static final String FILE = "tarrowmere-trials.csv";

    /** Name of the file of striploins that were cut to steaks. */
    public static final String STRIPLOIN_FILE = "tarrowmere-striploin-trials.csv";

    /** SD of each primal over the hall's cattle, which come from many farms, in the order of the edition's rows; invented. */
    private static final List<Double> SDS_G_PER_KG =
            List.of(2.6, 3.2, 1.8, 2.2, 4.2, 4.9, 2.1, 4.6, 6.2, 4.9, 2.5, 3.4, 7.7, 1.7);

    private static final int STRIPLOINS = 40;
    private static final long SEED = 20_260_319;
    private static final int DAYS = 25;
    private static final int CARCASSES_A_DAY = 12;
    private static final int DAY_OF_THE_BAD_SCALE = 9;

    private final Random random = new Random(SEED);

    private TarrowmereTrials() {}

    /**
     * Writes the file.
     *
     * @param arguments the folder
     */
    public static void main(String[] arguments) throws IOException {
        Files.write(Path.of(arguments[0], FILE), bytes());
        Files.write(Path.of(arguments[0], STRIPLOIN_FILE), striploinBytes());
    }

    /**
     * The file of whole carcasses.
     *
     * @return its bytes
     */
    public static byte[] bytes() {
        return new TarrowmereTrials().csv().getBytes(StandardCharsets.UTF_8);
    }

    /**
     * The file of striploins.
     *
     * @return its bytes
     */
    public static byte[] striploinBytes() {
        return new TarrowmereTrials().striploinCsv().getBytes(StandardCharsets.UTF_8);
    }

    private String striploinCsv() {
        StringBuilder csv = new StringBuilder("carcass,category,conformation,fat_class,cold_weight_kg,day,striploin,"
                + "striploin-steak,striploin/dice,striploin/lean-trim,striploin/fat-trim\n");
        for (int number = 1; number <= STRIPLOINS; number++) {
            int c = Math.min(13, Math.max(2, (int) Math.rint(8 + 2 * random.nextGaussian())));
            int f = Math.min(13, Math.max(3, (int) Math.rint(8 + 2.2 * random.nextGaussian())));
            double w = Math.rint(10 * Math.min(420, Math.max(260, 335 + 35 * random.nextGaussian()))) / 10;
            double striploin = w * 0.048 * (1 + 0.06 * random.nextGaussian());
            double steak = 780 - 4 * (f - 8) + 12 * random.nextGaussian();
            double dice = 80 + 5 * random.nextGaussian();
            double leanTrim = 30 + 3 * random.nextGaussian();
            double loss = 7 + random.nextGaussian();
            csv.append(String.format(
                    Locale.ROOT,
                    "TS-%02d,C,%s,%s,%.1f,2026-10-%02d,%.2f,%.2f,%.2f,%.2f,%.2f\n",
                    number,
                    Conformation.third(c),
                    FatClass.third(f),
                    w,
                    5 + (number - 1) / 10,
                    striploin,
                    striploin * steak / 1000,
                    striploin * dice / 1000,
                    striploin * leanTrim / 1000,
                    striploin * (1000 - steak - dice - leanTrim - loss) / 1000));
        }
        return csv.toString();
    }

    private String csv() {
        List<BreakdownRow> primals = ShippedTables.boneless2026().definition().breakdown().stream()
                .filter(row -> row.parent().equals("meat") && row.category().equals(BreakdownRow.ANY))
                .toList();
        StringBuilder csv = new StringBuilder("carcass,category,conformation,fat_class,cold_weight_kg,day");
        primals.forEach(row -> csv.append(',').append(row.cut()));
        csv.append(",fat-trim,bone\n");
        for (int day = 0; day < DAYS; day++) {
            String date = day < 13
                    ? String.format(Locale.ROOT, "2026-03-%02d", 1 + 2 * day)
                    : String.format(Locale.ROOT, "2026-10-%02d", 2 * (day - 12));
            for (int i = 0; i < CARCASSES_A_DAY; i++) {
                csv.append(row(day * CARCASSES_A_DAY + i + 1, day, date, primals));
            }
        }
        return csv.toString();
    }

    private String row(int number, int day, String date, List<BreakdownRow> primals) {
        Category category = List.of(Category.STEER, Category.STEER, Category.HEIFER, Category.COW)
                .get(random.nextInt(4));
        int c = Math.min(13, Math.max(2, (int) Math.rint(7.5 + 2.5 * random.nextGaussian())));
        int f = Math.min(13, Math.max(3, (int) Math.rint(8 + 2.2 * random.nextGaussian())));
        double w = Math.rint(10 * Math.min(480, Math.max(235, 330 + 8 * (c - 7) + 38 * random.nextGaussian()))) / 10;
        double lean = random.nextGaussian();
        double frame = random.nextGaussian();
        double loss = Math.max(1, 7 + random.nextGaussian());
        double fatter = switch (category) {
            case HEIFER -> 8 + 1.5 * (f - 8);
            case COW -> 9;
            default -> 0;
        };
        double fatTrim = Math.max(15, 112.21 + 9 - 4.2 * (c - 8) + 12.3 * (f - 8) + fatter - 21 * lean);
        double bonier = category == Category.COW ? 12 : 0;
        double bone = 188.671 - 3 - 7.1 * (c - 8) - 2.3 * (f - 8) - 6 * (w - 340) / 100 + bonier + 11 * frame;
        double meat = 1000 - fatTrim - bone - loss;
        Map<String, Double> grams = new LinkedHashMap<>();
        double sum = 0;
        for (BreakdownRow row : primals) {
            List<Double> k = row.coefficients();
            double share = k.get(0)
                    + k.get(1) * (c - 8)
                    + k.get(2) * (f - 8)
                    + k.get(3) * (w - 340) / 100
                    + (row.cut().equals("chuck-neck") ? 6 : row.cut().equals("cube-roll") ? -4 : 0)
                    + SDS_G_PER_KG.get(grams.size()) * random.nextGaussian();
            grams.put(row.cut(), share);
            sum += share;
        }
        StringBuilder line = new StringBuilder();
        line.append(String.format(Locale.ROOT, "TH-%03d", number))
                .append(',')
                .append(category.letter())
                .append(',')
                .append(Conformation.third(c))
                .append(',')
                .append(FatClass.third(f))
                .append(String.format(Locale.ROOT, ",%.1f,%s", w, date));
        List<Double> kg = new ArrayList<>();
        for (double share : grams.values()) {
            kg.add(meat * share / sum * w / 1000);
        }
        if (number % 50 == 17) {
            kg.set(random.nextInt(4), 0.0);
        }
        kg.add(fatTrim * w / 1000);
        kg.add(bone * w / 1000 * (day == DAY_OF_THE_BAD_SCALE ? 0.95 : 1));
        kg.forEach(one -> line.append(String.format(Locale.ROOT, ",%.2f", one)));
        return line.append('\n').toString();
    }
}
