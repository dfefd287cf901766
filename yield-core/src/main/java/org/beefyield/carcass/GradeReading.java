package org.beefyield.carcass;

/** How a sheet splits its conformation classes: the same text means another part of the class under each. */
public enum GradeReading {
    /** Thirds, the sign behind: {@code U-}, {@code U=}, {@code U+}. */
    THIRDS,
    /** Halves, the lower one with its sign in front: {@code -U}, {@code U+}. */
    HALVES
}
