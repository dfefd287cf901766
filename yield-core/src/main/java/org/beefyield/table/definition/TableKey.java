package org.beefyield.table.definition;

/** What a table says of itself beside its resources: the keys of its descriptor, and what messages call them. */
public enum TableKey {
    /** Version of the format. */
    FORMAT("format", false),

    /** Names of the levels. */
    LEVELS("levels", false),

    /** The point at which level coefficients hold. */
    REFERENCE("reference", false),

    /** Range of the data behind the table. */
    FITTED_RANGE("fitted_range", false),

    /** Range over which the table may be used. */
    ALLOWED_RANGE("allowed_range", false),

    /** Width of the grades of the data behind the table, points. */
    WIDTH_FIT("width_fit", false),

    /** Terms beside the plain slopes. */
    TERMS("terms", true),

    /** Letters of the categories served. */
    CATEGORIES("categories", false),

    /** How the carcasses were dressed, hung, quartered and aged. */
    BASIS("basis", true),

    /** Decimals to which columns were rounded. */
    DECIMALS("decimals", true),

    /** Degrees of freedom behind the residual SDs. */
    RESIDUAL_DEGREES_OF_FREEDOM("residual_degrees_of_freedom", true),
    /** Degrees of freedom of the SDs between runs. */
    RUN_DEGREES_OF_FREEDOM("run_degrees_of_freedom", true),

    /** What parts came from. */
    PROVENANCE("provenance", true),

    /** Digest of the definition. */
    DIGEST("digest", true);

    private final String code;
    private final boolean optional;

    TableKey(String code, boolean optional) {
        this.code = code;
        this.optional = optional;
    }

    /**
     * The key as it is written.
     *
     * @return lower-case letters and {@code _}
     */
    public String code() {
        return code;
    }

    /**
     * Whether a descriptor may leave it out.
     *
     * @return true if so
     */
    public boolean isOptional() {
        return optional;
    }
}
