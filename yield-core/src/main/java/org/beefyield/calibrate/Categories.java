package org.beefyield.calibrate;

/** How categories are learnt. */
public enum Categories {
    /** All move alike and keep the differences that they have in the prior table. */
    TOGETHER,
    /** They have slopes in common; where the prior table states errors of their own, their levels move by themselves too. */
    LEVELS,
    /** Each is learnt from its own trials alone. */
    APART
}
