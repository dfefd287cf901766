// Start-up file for jshell: the library's packages, and show(x) for everything that it returns, pictures too.
import java.nio.file.Files;
import java.nio.file.Path;
import org.beefyield.boning.*;
import org.beefyield.calibrate.*;
import org.beefyield.carcass.*;
import org.beefyield.cut.*;
import org.beefyield.data.*;
import org.beefyield.data.boning.*;
import org.beefyield.data.finish.*;
import org.beefyield.data.frame.*;
import org.beefyield.data.json.*;
import org.beefyield.data.killsheet.*;
import org.beefyield.data.picture.*;
import org.beefyield.data.solver.*;
import org.beefyield.data.table.*;
import org.beefyield.data.trade.*;
import org.beefyield.estimate.*;
import org.beefyield.feedback.*;
import org.beefyield.finish.*;
import org.beefyield.frame.*;
import org.beefyield.json.*;
import org.beefyield.lp.*;
import org.beefyield.market.*;
import org.beefyield.pack.*;
import org.beefyield.pay.*;
import org.beefyield.plan.*;
import org.beefyield.price.*;
import org.beefyield.reconcile.*;
import org.beefyield.report.*;
import org.beefyield.stats.*;
import org.beefyield.table.*;
import org.beefyield.table.definition.*;
import org.beefyield.text.*;

// A picture is shown as the words that say the same, and where it can be looked at.
void show(Object x) {
    System.out.println(x instanceof Shown shown
            ? shown.toText().stripTrailing()
            : x instanceof Picture picture ? picture.altText() + "\n" + page(picture).toUri() : String.valueOf(x));
}

// A page with the picture, for a browser.
Path page(Picture picture) {
    try {
        Path file = Files.createTempFile("picture-", ".html");
        return Files.writeString(file, "<!DOCTYPE html>\n<meta charset=\"utf-8\">\n" + picture.toSvg() + "\n");
    } catch (java.io.IOException e) {
        throw new java.io.UncheckedIOException(e);
    }
}
