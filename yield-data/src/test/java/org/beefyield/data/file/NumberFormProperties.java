package org.beefyield.data.file;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.NumericChars;
import net.jqwik.api.constraints.StringLength;

class NumberFormProperties {
    @Property
    void aNumberIsTheDoubleNextToItHoweverManyDigitsItHas(
            @ForAll boolean isBelow0,
            @ForAll @NumericChars @StringLength(min = 1, max = 12) String whole,
            @ForAll @NumericChars @StringLength(max = 12) String decimals) {
        String text = (isBelow0 ? "-" : "") + whole + (decimals.isEmpty() ? "" : "." + decimals);
        double expected = Double.parseDouble(text) + 0.0;

        assertThat(Double.doubleToRawLongBits(NumberForm.POINT.parse(text)))
                .isEqualTo(Double.doubleToRawLongBits(expected));
        assertThat(Double.doubleToRawLongBits(NumberForm.COMMA_OR_EXPONENT.parse(text.replace('.', ','))))
                .isEqualTo(Double.doubleToRawLongBits(expected));
    }
}
