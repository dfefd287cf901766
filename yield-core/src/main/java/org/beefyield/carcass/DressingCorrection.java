package org.beefyield.carcass;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.beefyield.text.Checks;

/**
 * Corrections of the carcass weight to the reference dressing, Commission Implementing Regulation (EU) 2017/1184,
 * Annex: each departure from that dressing takes a percentage of the carcass weight off, or puts it on, some of them by
 * fat class.
 */
public enum DressingCorrection {
    /** Kidneys left on: -0.4 %. */
    KIDNEYS_LEFT_ON(-0.4),
    /** Kidney fat left on: -1.75 % in fat classes 1 and 2, -2.5 % in 3, -3.5 % in 4 and 5. */
    KIDNEY_FAT_LEFT_ON(-1.75, -1.75, -2.5, -3.5, -3.5),
    /** Pelvic fat left on: -0.5 %. */
    PELVIC_FAT_LEFT_ON(-0.5),
    /** Liver left on: -2.5 %. */
    LIVER_LEFT_ON(-2.5),
    /** Thin skirt left on: -0.4 %. */
    THIN_SKIRT_LEFT_ON(-0.4),
    /** Thick skirt left on: -0.4 %. */
    THICK_SKIRT_LEFT_ON(-0.4),
    /** Tail left on: -0.4 %. */
    TAIL_LEFT_ON(-0.4),
    /** Spinal cord left on: -0.05 %. */
    SPINAL_CORD_LEFT_ON(-0.05),
    /** Mammary fat left on: -1 %. */
    MAMMARY_FAT_LEFT_ON(-1.0),
    /** Testicles left on: -0.3 %. */
    TESTICLES_LEFT_ON(-0.3),
    /** Cod fat left on: -0.5 %. */
    COD_FAT_LEFT_ON(-0.5),
    /** Fat on the inside of topside left on: -0.3 %. */
    TOPSIDE_INSIDE_FAT_LEFT_ON(-0.3),
    /** Jugular vein and adjacent fat left on: -0.3 %. */
    JUGULAR_VEIN_LEFT_ON(-0.3),
    /** External fat removed: 0, 0, +2, +3, +4 % in fat classes 1 to 5. */
    EXTERNAL_FAT_REMOVED(0, 0, 2, 3, 4),
    /** Brisket fat removed, leaving a layer: 0, +0.2, +0.2, +0.3, +0.4 % in fat classes 1 to 5. */
    BRISKET_FAT_REMOVED(0, 0.2, 0.2, 0.3, 0.4),
    /** Flank fat next to the cod fat removed: 0, +0.3, +0.4, +0.5, +0.6 % in fat classes 1 to 5. */
    FLANK_FAT_REMOVED(0, 0.3, 0.4, 0.5, 0.6);

    private final double inClass1;
    private final double inClass2;
    private final double inClass3;
    private final double inClass4;
    private final double inClass5;

    DressingCorrection(double percent) {
        this(percent, percent, percent, percent, percent);
    }

    DressingCorrection(double inClass1, double inClass2, double inClass3, double inClass4, double inClass5) {
        this.inClass1 = inClass1;
        this.inClass2 = inClass2;
        this.inClass3 = inClass3;
        this.inClass4 = inClass4;
        this.inClass5 = inClass5;
    }

    /**
     * The correction in per cent of the carcass weight.
     *
     * @param fatClass fat class of the carcass
     * @return per cent, negative where weight comes off
     */
    public double percent(FatClass fatClass) {
        Objects.requireNonNull(fatClass, "fatClass");
        return switch (fatClass.classNumber()) {
            case 1 -> inClass1;
            case 2 -> inClass2;
            case 3 -> inClass3;
            case 4 -> inClass4;
            default -> inClass5;
        };
    }

    /**
     * Weight that the carcass would have in the reference dressing: the percentages of all departures add up and apply
     * once to the weight as dressed.
     *
     * @param weightKg weight as dressed, kg, hot or cold
     * @param departures how the dressing departs from the reference
     * @param fatClass fat class of the carcass
     * @return weight in the reference dressing, kg, hot or cold as given
     * @throws IllegalArgumentException if the weight is no carcass weight
     */
    public static double toReference(double weightKg, Set<DressingCorrection> departures, FatClass fatClass) {
        Checks.noNullIn(departures, "departures");
        Objects.requireNonNull(fatClass, "fatClass");
        CarcassWeights.check("weight", weightKg);
        double percent = 0;
        for (DressingCorrection departure : values()) {
            if (departures.contains(departure)) {
                percent += departure.percent(fatClass);
            }
        }
        return weightKg * (100 + percent) / 100;
    }

    /**
     * The name used in files.
     *
     * @return such as {@code kidney-fat-left-on}
     */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code kidney-fat-left-on}
     * @return the correction
     * @throws IllegalArgumentException if there is none of that name
     */
    public static DressingCorrection parse(String code) {
        Objects.requireNonNull(code, "code");
        String wanted = code.strip().toLowerCase(Locale.ROOT);
        for (DressingCorrection correction : values()) {
            if (correction.code().equals(wanted)) {
                return correction;
            }
        }
        throw new IllegalArgumentException("dressing \"" + code + "\" is none of "
                + Arrays.stream(values()).map(DressingCorrection::code).collect(Collectors.joining(" ")));
    }
}
