package org.beefyield.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.constraints.StringLength;

class FewWeightsProperties {
    @Property
    void theyAreTheMapThatWasGivenInItsOrderAndStay(
            @ForAll @Size(max = 40)
                    Map<@AlphaChars @StringLength(max = 2) String, @DoubleRange(max = 600) Double> given,
            @ForAll @AlphaChars @StringLength(max = 2) String name) {
        Map<String, Double> expected = new LinkedHashMap<>(given);

        Map<String, Double> weights = FewWeights.copyOf(given);
        given.clear();

        assertThat(weights).isEqualTo(expected).hasSameHashCodeAs(expected).hasToString(expected.toString());
        assertThat(expected).isEqualTo(weights);
        assertThat(List.copyOf(weights.keySet())).isEqualTo(List.copyOf(expected.keySet()));
        assertThat(List.copyOf(weights.values())).isEqualTo(List.copyOf(expected.values()));
        List<Object> seen = new ArrayList<>();
        weights.forEach((one, kg) -> seen.add(Map.entry(one, kg)));
        assertThat(seen).isEqualTo(List.copyOf(expected.entrySet()));
        assertThat(weights.get(name)).isEqualTo(expected.get(name));
        assertThat(weights.containsKey(name)).isEqualTo(expected.containsKey(name));
        assertThat(weights.get(null)).isNull();
        assertThat(weights.containsKey(null)).isFalse();
        assertThat(FewWeights.copyOf(weights)).isEqualTo(weights);
        assertThatExceptionOfType(UnsupportedOperationException.class).isThrownBy(() -> weights.put(name, 1.0));
        Iterator<Map.Entry<String, Double>> entries = weights.entrySet().iterator();
        while (entries.hasNext()) {
            Map.Entry<String, Double> entry = entries.next();
            assertThatExceptionOfType(UnsupportedOperationException.class).isThrownBy(() -> entry.setValue(1.0));
            assertThatExceptionOfType(UnsupportedOperationException.class).isThrownBy(entries::remove);
        }
        assertThatExceptionOfType(NoSuchElementException.class).isThrownBy(entries::next);
    }
}
