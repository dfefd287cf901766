package org.beefyield.data;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import org.junit.jupiter.api.Test;

/** Which package of this module may use which library. */
class DataArchitectureTest {
    private static final JavaClasses DATA = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("org.beefyield.data");

    private static final String PICTURE = "org.beefyield.data.picture..";
    private static final String NOTEBOOK = "org.beefyield.data.notebook..";

    @Test
    void onlyNotebooksKnowAKernel() {
        noClasses()
                .that()
                .resideOutsideOfPackage(NOTEBOOK)
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.dflib..", NOTEBOOK)
                .check(DATA);
    }

    /** Pictures are text: no display, no font, and nothing but the base module of a JDK. */
    @Test
    void nothingPaintsOrNeedsAFont() {
        noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.awt..", "javax.swing..", "javax.imageio..", "javax.print..")
                .check(DATA);
    }

    @Test
    void picturesNeedNoLibrary() {
        classes()
                .that()
                .resideInAPackage(PICTURE)
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage(
                        "java.lang..",
                        "java.util..",
                        "java.security..",
                        "java.nio.charset..",
                        "org.jspecify..",
                        "org.beefyield..")
                .check(DATA);
    }

    @Test
    void picturesAreOfResultsAndReadNoFile() {
        classes()
                .that()
                .resideInAPackage(PICTURE)
                .should()
                .onlyDependOnClassesThat()
                .resideOutsideOfPackages(
                        "org.beefyield.data", "org.beefyield.data.command..", "tools.jackson..", "java.nio.file..")
                .check(DATA);
    }

    @Test
    void nothingElseDependsOnPicturesButWhatShowsThem() {
        noClasses()
                .that()
                .resideOutsideOfPackages(PICTURE, NOTEBOOK)
                .should()
                .dependOnClassesThat()
                .resideInAPackage(PICTURE)
                .check(DATA);
    }
}
