package org.beefyield.data.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Random;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;

/**
 * Writes the sample kill sheets of the invented Tarrowmere farm group. The same seed gives the same bytes everywhere:
 * only {@link Random}'s specified generator and plain arithmetic are used.
 *
 * <p>To write them anew, run {@link #main(String[])} with the folder {@code yield-data/examples}.
 */
public final class TarrowmereSheets {
    /** Name of the sheet without a fault. */
    public static final String CLEAN = "tarrowmere-2026-11.csv";

    /** Name of the sheet with every fault. */
    public static final String MESSY = "tarrowmere-messy.csv";

    /**
     * Conformation classes of Irish steers in 2015, per cent, U R O P (no E). Source: Irish beef carcass classification
     * results 2015, Department of Agriculture, Food and the Marine. They add to 101 by rounding.
     */
    private static final int[] STEERS_U_R_O_P = {12, 37, 42, 10};

    /** The same for heifers, same source. */
    private static final int[] HEIFERS_U_R_O_P = {17, 52, 28, 4};

    private static final long SEED = 20_261_101;
    private static final int CARCASSES_A_DAY = 25;

    /** Mondays and Thursdays. */
    private static final int[] KILL_DAYS = {2, 5, 9, 12, 16, 19, 23, 26};

    private static final List<String> SUPPLIERS =
            List.of("Tarrowmere Home Farm", "Upper Tarrow", "Tarrow Bridge", "Mere End", "Long Tarrow");

    /** Steers and heifers weigh about what the trade asks for, 270 to 380 kg, common target 360 (common practice). */
    private static final Herd STEERS = new Herd(Category.STEER, 8, 1.8, 355, 30, 20, 29);

    private static final Herd HEIFERS = new Herd(Category.HEIFER, 9, 1.8, 310, 26, 18, 28);

    /** Weight and conformation (below) of young bulls and cows: Norwegian classification statistics 2023, Animalia. */
    private static final Herd YOUNG_BULLS = new Herd(Category.YOUNG_BULL, 6, 1.5, 316, 30, 15, 23);

    private static final Herd COWS = new Herd(Category.COW, 9, 2.5, 300, 38, 38, 120);

    private final Random random = new Random(SEED);

    /** What the animals of one category are like: means and SDs where nothing is cited are invented. */
    private record Herd(
            Category category,
            double meanFat,
            double sdFat,
            double meanKg,
            double sdKg,
            int youngestMonths,
            int oldestMonths) {}

    private TarrowmereSheets() {}

    /**
     * Writes both sheets.
     *
     * @param args the folder
     * @throws IOException if that fails
     */
    public static void main(String[] args) throws IOException {
        Files.write(Path.of(args[0], CLEAN), clean());
        Files.write(Path.of(args[0], MESSY), messy());
    }

    /**
     * The clean sheet.
     *
     * @return its bytes
     */
    public static byte[] clean() {
        return new TarrowmereSheets().drawClean().getBytes(StandardCharsets.UTF_8);
    }

    private String drawClean() {
        StringBuilder sheet = new StringBuilder(
                "carcass,kill_date,lot,supplier,category,conformation,fat_class,cold_weight_kg,age_months,assured\n");
        int number = 401;
        int lot = 0;
        for (int day : KILL_DAYS) {
            LocalDate date = LocalDate.of(2026, 11, day);
            String supplier = "";
            int leftInLot = 0;
            for (int k = 0; k < CARCASSES_A_DAY; k++) {
                if (leftInLot == 0) {
                    leftInLot = 5 + random.nextInt(8);
                    lot++;
                    supplier = SUPPLIERS.get(random.nextInt(SUPPLIERS.size()));
                }
                leftInLot--;
                sheet.append(String.format("TM-%04d,%s,L%02d,%s,%s\n", number++, date, lot, supplier, carcass()));
            }
        }
        return sheet.toString();
    }

    private String carcass() {
        int draw = random.nextInt(100);
        Herd herd = draw < 46 ? STEERS : draw < 84 ? HEIFERS : draw < 92 ? YOUNG_BULLS : COWS;
        int conformation = conformation(herd);
        int fat = within(1, 15, (int) Math.round(normal(herd.meanFat(), herd.sdFat())));
        // better conformation goes with a heavier carcass; 5 kg a point is invented
        double kg = normal(herd.meanKg() + 5 * (conformation - 6), herd.sdKg());
        // now and then one far off, so that the sheet holds carcasses that a table has little data for
        int oddity = random.nextInt(30);
        kg += oddity == 0 ? 150 : oddity == 1 ? -85 : 0;
        long tenths = Math.round(10 * Math.max(180, Math.min(580, kg)));
        int months = herd.youngestMonths() + random.nextInt(herd.oldestMonths() - herd.youngestMonths() + 1);
        String assured = random.nextInt(100) < 92 ? "yes" : "no";
        return herd.category() + "," + Conformation.third(conformation) + "," + FatClass.third(fat) + "," + tenths / 10
                + "." + tenths % 10 + "," + months + "," + assured;
    }

    private int conformation(Herd herd) {
        return switch (herd.category()) {
            case STEER -> thirdOfClass(STEERS_U_R_O_P);
            case HEIFER -> thirdOfClass(HEIFERS_U_R_O_P);
            case YOUNG_BULL -> within(1, 15, (int) Math.round(normal(6.07, 2)));
            default -> within(1, 15, (int) Math.round(normal(3.93, 1.6)));
        };
    }

    /** A class drawn by its frequency, then a third of it, each as likely (invented: the source has whole classes). */
    private int thirdOfClass(int[] frequenciesFromU) {
        int total = 0;
        for (int frequency : frequenciesFromU) {
            total += frequency;
        }
        int draw = random.nextInt(total);
        int lowestThird = 10;
        for (int frequency : frequenciesFromU) {
            if (draw < frequency) {
                break;
            }
            draw -= frequency;
            lowestThird -= 3;
        }
        return lowestThird + random.nextInt(3);
    }

    private static int within(int low, int high, int value) {
        return Math.max(low, Math.min(high, value));
    }

    /** Near enough to normal: the sum of twelve uniform numbers. */
    private double normal(double mean, double sd) {
        double sum = -6;
        for (int k = 0; k < 12; k++) {
            sum += random.nextDouble();
        }
        return mean + sd * sum;
    }

    /**
     * The messy sheet: a byte order mark, CRLF, no last line end, and one of every fault among good rows.
     *
     * @return its bytes
     */
    public static byte[] messy() {
        String sheet = String.join(
                "\r\n",
                "\uFEFFcarcass,kill_date,lot,supplier,category,conformation,conformation_points,fat_class,fat_points,"
                        + "cold_weight_kg,hot_weight_kg,age_months,assured,dressing,left_kg,right_kg,status,pen",
                "TM-0701,2026-11-30,L61,Mere End,C,R=,,3+,,342.0,,24,yes,,,,passed,4",
                "TM-0702,2026-11-30,L61,Mere End,C,r +,,4l,,,361.0,25,yes,,,,,4",
                "TM-0703,2026-11-30,L61,Mere End,C,R-,,3=,,338.5,345.4,22,yes,,,,,4",
                "TM-0701,2026-11-30,L61,Mere End,C,O+,,3-,,330.0,,24,yes,,,,,4",
                "TM-0705,2026-11-30,L61,Mere End,C,R++,,3=,,351.5,,24,yes,,,,,4",
                "TM-0706,2026-11-30,L61,Mere End,C,-U,,3=,,372.0,,24,yes,,,,,4",
                "TM-0707,2026-11-30,L61,Mere End,C,X,,3=,,340.0,,24,yes,,,,,4",
                "",
                "TM-0708,2026-11-30,L62,Upper Tarrow,E,R=,,0,,301.5,,21,yes,,,,,7",
                "TM-0709,2026-11-30,L62,Upper Tarrow,E,R=,,6,,299.0,,21,yes,,,,,7",
                "TM-0710,2026-11-30,L62,Upper Tarrow,E,R=,,8,,305.5,,21,yes,,,,,7",
                "TM-0711,2026-11-30,L62,Upper Tarrow,E,,7.6,,8.3,312.0,,21,no,,,,,7",
                "TM-0712,2026-11-30,L62,Upper Tarrow,E,O+,,3=,,0,,21,yes,,,,,7",
                "TM-0713,2026-11-30,L62,Upper Tarrow,E,O+,,3=,,-3,,21,yes,,,,,7",
                "TM-0714,2026-11-30,L62,Upper Tarrow,E,O+,,3=,,NaN,,21,yes,,,,,7",
                "TM-0715,2026-11-30,L62,Upper Tarrow,E,O+,,3=,,3400,,21,yes,,,,,7",
                "TM-0716,2026-11-30,L62,Upper Tarrow,E,O+,,3=,,\"342,5\",,21,yes,,,,,7",
                "TM-0717,2026-11-30,L62,Upper Tarrow,E,O+,,3=,,342,5,,21,yes,,,,,7",
                "TM-0718;2026-11-30;L62;Upper Tarrow;E;O+;;3=;;342.5;;21;yes;;;;;7",
                "TM-0719,2026-11-30,L63,Long Tarrow,C,R=,,3+,,,,24,yes,,,,condemned,2",
                "TM-0720,2026-11-30,L63,Long Tarrow,C,R=,,3+,,342.0,,9,yes,,,,,2",
                "TM-0721,2026-11-30,L63,Long Tarrow,C,R=,,3+,,342.0,331.0,24,yes,,,,,2",
                "TM-0722,2026-11-30,L63,Long Tarrow,C,R=,8,3+,,342.0,,24,yes,,,,,2",
                "TM-0723,2026-11-30,L63,Long Tarrow,C,R=,,3+,,355.0,,24,yes,kidneys-left-on tail-left-on,,,,2",
                "TM-0724,2026-11-30,L63,Long Tarrow,C,R=,,3+,,355.0,,24,yes,horns-left-on,,,,2",
                "TM-0725,2026-11-30,L63,Long Tarrow,C,R=,,3+,,348.0,,24,yes,,180.5,152.5,,2",
                "TM-0726,30/11/2026,L63,Long Tarrow,C,R=,,3+,,348.0,,24,perhaps,,,,sold,2",
                "TM-0727,2026-11-30,L63,Long Tarrow,C,R=,,3+,,\"348.0,,24,yes,,,,,2",
                "TM-0728,2026-11-30,L63,Long \u00a0Tarrow,C,R=,,3+,,348.0,,24,yes,,,,,2",
                ",2026-11-30,L63,Long Tarrow,,,,,,,,,,,,,,2",
                "TM-0730,2026-11-30,L63,Long Tarrow,B,E-",
                ",,,,,,,,,,,,,,,,,",
                "TM-0731,2026-11-30,L64,\"Tarrow Bridge, lower yard\",D,O-,,4H,,318.5,,67,no,,160.0,158.0,,9");
        // the lone byte A0 is a no-break space in single-byte encodings and nothing in UTF-8
        byte[] bytes = sheet.getBytes(StandardCharsets.UTF_8);
        return withoutFirst(bytes, (byte) 0xC2);
    }

    private static byte[] withoutFirst(byte[] bytes, byte unwanted) {
        int at = 0;
        while (bytes[at] != unwanted) {
            at++;
        }
        byte[] rest = new byte[bytes.length - 1];
        System.arraycopy(bytes, 0, rest, 0, at);
        System.arraycopy(bytes, at + 1, rest, at, rest.length - at);
        return rest;
    }
}
