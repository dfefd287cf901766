package org.beefyield.data.testkit;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.engine.JqwikTestEngine;
import org.junit.platform.engine.ConfigurationParameters;
import org.junit.platform.engine.DiscoveryFilter;
import org.junit.platform.engine.DiscoverySelector;
import org.junit.platform.engine.EngineDiscoveryRequest;
import org.junit.platform.engine.EngineExecutionListener;
import org.junit.platform.engine.ExecutionRequest;
import org.junit.platform.engine.TestDescriptor;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.engine.UniqueId;
import org.junit.platform.engine.discovery.DiscoverySelectors;

/** Runs a class of tests on jqwik's engine, as a build does, and keeps what happened to each test. */
final class ContractRun implements EngineExecutionListener {
    final Map<String, String> failures = new LinkedHashMap<>();
    final Set<String> passed = new TreeSet<>();
    final Set<String> skipped = new TreeSet<>();

    private ContractRun() {}

    static ContractRun of(Class<?> tests) {
        try {
            Path folder = Files.createTempDirectory("jqwik");
            Path database = folder.resolve("database");
            try {
                return run(tests, new Parameters(Map.of("jqwik.database", database.toString())));
            } finally {
                Files.deleteIfExists(database);
                Files.delete(folder);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @SuppressWarnings("deprecation")
    private static ContractRun run(Class<?> tests, Parameters parameters) {
        JqwikTestEngine engine = new JqwikTestEngine();
        TestDescriptor root = engine.discover(new Request(tests, parameters), UniqueId.forEngine(engine.getId()));
        ContractRun run = new ContractRun();
        engine.execute(new ExecutionRequest(root, run, parameters));
        return run;
    }

    @Override
    public void executionFinished(TestDescriptor test, TestExecutionResult result) {
        if (test.isTest()) {
            switch (result.getStatus()) {
                case SUCCESSFUL -> passed.add(test.getDisplayName());
                case ABORTED -> skipped.add(test.getDisplayName());
                case FAILED ->
                    failures.put(
                            test.getDisplayName(),
                            result.getThrowable().map(Throwable::getMessage).orElse(""));
            }
        }
    }

    private record Request(Class<?> tests, ConfigurationParameters parameters) implements EngineDiscoveryRequest {
        @Override
        public <T extends DiscoverySelector> List<T> getSelectorsByType(Class<T> type) {
            DiscoverySelector selector = DiscoverySelectors.selectClass(tests);
            return type.isInstance(selector) ? List.of(type.cast(selector)) : List.of();
        }

        @Override
        public <T extends DiscoveryFilter<?>> List<T> getFiltersByType(Class<T> type) {
            return List.of();
        }

        @Override
        public ConfigurationParameters getConfigurationParameters() {
            return parameters;
        }
    }

    private record Parameters(Map<String, String> values) implements ConfigurationParameters {
        @Override
        public Optional<String> get(String key) {
            return Optional.ofNullable(values.get(key));
        }

        @Override
        public Optional<Boolean> getBoolean(String key) {
            return get(key).map(Boolean::valueOf);
        }

        @Override
        @Deprecated
        public int size() {
            return values.size();
        }

        @Override
        public Set<String> keySet() {
            return values.keySet();
        }
    }
}
