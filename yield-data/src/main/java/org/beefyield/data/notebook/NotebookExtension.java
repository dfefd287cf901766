package org.beefyield.data.notebook;

import java.util.function.Function;
import org.beefyield.data.picture.Picture;
import org.beefyield.text.Shown;
import org.dflib.jjava.jupyter.Extension;
import org.dflib.jjava.jupyter.kernel.BaseKernel;
import org.dflib.jjava.jupyter.kernel.display.mime.MIMEType;

/**
 * Shows every {@link Shown} result that is the last value of a cell as HTML and every {@link Picture} as SVG, and both as text
 * where that can't be shown, as on paper. A kernel built on jjava-jupyter finds it by itself if this library is on its class path.
 */
public final class NotebookExtension implements Extension {
    /** For the kernel, which finds this class as a service. */
    public NotebookExtension() {}

    /**
     * Tells a kernel how to show results.
     *
     * @param kernel a kernel that is starting
     */
    @Override
    public void install(BaseKernel kernel) {
        register(kernel, Shown.class, MIMEType.TEXT_HTML, Shown::toHtml, Shown::toText);
        register(kernel, Picture.class, MIMEType.IMAGE_SVG, Picture::toSvg, Picture::altText);
    }

    private static <T> void register(
            BaseKernel kernel, Class<T> type, MIMEType rich, Function<T, String> form, Function<T, String> text) {
        kernel.getRenderer()
                .createRegistration(type)
                .preferring(rich, MIMEType.TEXT_PLAIN)
                .register((result, context) -> {
                    context.renderIfRequested(rich, () -> form.apply(result));
                    context.renderIfRequested(MIMEType.TEXT_PLAIN, () -> text.apply(result));
                });
    }
}
