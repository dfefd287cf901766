import java.util.Locale
import org.beefyield.carcass.Carcass
import org.beefyield.carcass.Category
import org.beefyield.carcass.Conformation
import org.beefyield.carcass.FatClass
import org.beefyield.data.table.ShippedTables
import org.beefyield.estimate.YieldEstimator

fun main() {
    val carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340.0)
    val estimator = YieldEstimator.of(ShippedTables.boneless2026()).withSpecification("steaks")
    println(String.format(Locale.ROOT, "striploin %.2f kg", estimator.estimate(carcass).kg("striploin")))
}
