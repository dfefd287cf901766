package org.beefyield.data.json;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.TriedEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.json.CarcassJson;
import org.beefyield.json.EstimateJson;
import org.beefyield.json.RefusalJson;

class JsonProperties {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(ShippedTables.boneless2026());

    @Provide
    Arbitrary<Carcass> carcasses() {
        Arbitrary<Conformation> conformations = Arbitraries.oneOf(
                Arbitraries.of(Conformation.thirds()),
                Arbitraries.of(Conformation.classes()),
                Combinators.combine(
                                Arbitraries.doubles().between(1, 18),
                                Arbitraries.doubles().between(0, 3))
                        .as(Conformation::ofPosition));
        Arbitrary<FatClass> fatClasses = Arbitraries.oneOf(
                Arbitraries.of(FatClass.thirds()),
                Arbitraries.of("4L", "4H", "3").map(FatClass::parse),
                Combinators.combine(
                                Arbitraries.doubles().between(1, 15),
                                Arbitraries.doubles().between(0, 3))
                        .as(FatClass::ofPosition));
        return Combinators.combine(
                        Arbitraries.of(Category.values()),
                        conformations,
                        fatClasses,
                        Arbitraries.doubles().between(1, CarcassWeights.HEAVIEST_KG),
                        Arbitraries.strings().ofMaxLength(20).injectNull(0.3))
                .as((category, conformation, fatClass, kg, id) -> {
                    Carcass carcass = Carcass.of(category, conformation, fatClass, kg);
                    return id == null ? carcass : carcass.withId(id);
                });
    }

    @Property(tries = 300)
    void whatOneLibraryWritesEveryOtherReadsBackEqual(
            @ForAll("carcasses") Carcass carcass, @ForAll Mapper writer, @ForAll Mapper reader) {
        CarcassJson form = CarcassJson.of(carcass);
        CarcassJson back = reader.read(writer.write(form), CarcassJson.class);
        assertThat(back).isEqualTo(form);
        assertThat(back.carcass()).isEqualTo(carcass);

        TriedEstimate tried = ESTIMATOR.tryEstimate(carcass);
        if (tried.estimate().isPresent()) {
            EstimateJson estimate = EstimateJson.of(tried.estimate().get(), 0.9);
            assertThat(reader.read(writer.write(estimate), EstimateJson.class)).isEqualTo(estimate);
        } else {
            RefusalJson refusal = RefusalJson.of(carcass, tried.reasons());
            assertThat(reader.read(writer.write(refusal), RefusalJson.class)).isEqualTo(refusal);
        }
    }
}
