/**
 * Files in and out, the shipped tables, pictures and the test kit of beefyield. Who requires this module needs no other line:
 * yield-core comes with it, and Jackson.
 *
 * <p>yield-core has a module name and no descriptor, for Commons Math has neither, and a descriptor that requires a module by
 * the name of its file binds every module downstream to that file. No descriptor could require jjava-jupyter either; a
 * kernel has all of it on the class path, where no module bounds apply.
 */
@SuppressWarnings({"requires-automatic", "requires-transitive-automatic"})
module org.beefyield.data {
    requires transitive org.beefyield.core;
    requires tools.jackson.databind;
    requires static net.jqwik.api;
    requires static ojalgo;
    requires static org.jspecify;

    exports org.beefyield.data;
    exports org.beefyield.data.boning;
    exports org.beefyield.data.finish;
    exports org.beefyield.data.frame;
    exports org.beefyield.data.json;
    exports org.beefyield.data.killsheet;
    exports org.beefyield.data.picture;
    exports org.beefyield.data.solver;
    exports org.beefyield.data.table;
    exports org.beefyield.data.testkit;
    exports org.beefyield.data.trade;

    // the provider methods of the contract are protected
    opens org.beefyield.data.testkit;
}
