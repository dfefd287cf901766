import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.jar.JarFile;

/** What a tool that scans a class path does: loads every class of a jar and asks for its members. */
public final class Classes {
    private Classes() {}

    /**
     * Scans a jar that is on the class path.
     *
     * @param args the jar, then the packages that may need what is optional
     * @throws Exception if the jar can't be read
     */
    public static void main(String[] args) throws Exception {
        List<String> optional = Arrays.asList(args).subList(1, args.length);
        List<String> broken = new ArrayList<>();
        int whole = 0;
        try (JarFile jar = new JarFile(args[0])) {
            for (String entry : jar.stream().map(Object::toString).toList()) {
                if (!entry.endsWith(".class") || entry.endsWith("-info.class")) {
                    continue;
                }
                String name = entry.substring(0, entry.length() - ".class".length()).replace('/', '.');
                try {
                    Class<?> loaded = Class.forName(name, false, Classes.class.getClassLoader());
                    loaded.getDeclaredMethods();
                    loaded.getDeclaredConstructors();
                    loaded.getDeclaredFields();
                    loaded.getAnnotations();
                    whole++;
                } catch (NoClassDefFoundError e) {
                    if (!optional.contains(name.substring(0, name.lastIndexOf('.')))) {
                        broken.add(name + " needs " + e.getMessage());
                    }
                }
            }
        }
        broken.forEach(System.out::println);
        System.out.println(broken.isEmpty() && whole > 0 ? "all whole" : broken.size() + " broken of " + whole);
    }
}
