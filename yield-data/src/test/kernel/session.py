"""Talks to the installed kernel as Jupyter does: results and their types, names completed, words while a cell runs, and
interrupts that lose nothing. Arguments: the kernel's name, and how often a cell is interrupted. Exit code 0: all held."""
import sys
import time
from queue import Empty

from jupyter_client.manager import start_new_kernel

NAME, TIMES = sys.argv[1], int(sys.argv[2])
SECONDS = 120
STARTS = 4
failed = []


def check(what, good, found):
    print(f"  {what}: {found}" if good else f"FAILED: {what}: {found}", file=sys.stdout if good else sys.stderr)
    if not good:
        failed.append(what)


def run(client, code, at_words=None):
    """Runs a cell: its status, its outputs, and for each of its words whether the cell still ran; at_words is called with
    the first words."""
    asked = client.execute(code)
    outputs = []
    while True:
        message = client.get_iopub_msg(timeout=SECONDS)
        if message["parent_header"].get("msg_id") != asked:
            continue
        kind, content = message["msg_type"], message["content"]
        if kind == "status" and content["execution_state"] == "idle":
            break
        if kind in ("stream", "display_data", "execute_result", "error"):
            outputs.append((kind, content))
        if kind == "stream" and at_words:
            at_words()
            at_words = None
    while True:
        reply = client.get_shell_msg(timeout=SECONDS)
        if reply["parent_header"].get("msg_id") == asked:
            return reply["content"]["status"], outputs


def completed(client, code):
    asked = client.complete(code, len(code))
    while True:
        reply = client.get_shell_msg(timeout=SECONDS)
        if reply["parent_header"].get("msg_id") == asked:
            content = reply["content"]
            return [code[:content["cursor_start"]] + match for match in content["matches"]]


def types(outputs):
    return sorted({kind for _, content in outputs if "data" in content for kind in content["data"]})


START = """import org.beefyield.carcass.*;
import org.beefyield.data.picture.*;
import org.beefyield.data.table.*;
import org.beefyield.estimate.*;
var estimator = YieldEstimator.of(ShippedTables.boneless2026());
var estimate = estimator.estimate(
        Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340));
int kept = 42;
estimate"""

# a loop of its own, the library at work, and a wait: each says that it has begun
BUSY = [
    'System.out.println("begun"); long n = 0; while (true) { n++; }',
    'System.out.println("begun"); while (true) { estimator.estimate(estimate.carcass()); }',
    'System.out.println("begun"); Thread.sleep(600_000);',
]

# Jupyter doesn't always hear a kernel that has come up; it starts it again then, and so does this
for start in range(STARTS):
    try:
        manager, client = start_new_kernel(kernel_name=NAME, startup_timeout=SECONDS // STARTS)
        break
    except RuntimeError as silent:
        print(f"  started again: {silent}")
else:
    sys.exit("FAILED: the kernel doesn't start")
try:
    status, outputs = run(client, START)
    check("a result", status == "ok" and types(outputs) == ["text/html", "text/plain"], f"{status} {types(outputs)}")
    text = "".join(content["data"]["text/plain"] for _, content in outputs if "data" in content)
    check("its text is no markup", "Striploin" in text and "<" not in text, text.split("\n")[0])
    status, outputs = run(client, "Pictures.breakdown(estimate)")
    check("a picture", types(outputs) == ["image/svg+xml", "text/plain"], f"{status} {types(outputs)}")
    status, outputs = run(client, "display(estimate); display(Pictures.intervals(estimate));")
    check("shown in between", types(outputs) == ["image/svg+xml", "text/html", "text/plain"], f"{status} {types(outputs)}")

    for code, name in [("estim", "estimator"), ("estimate.saleab", "estimate.saleableKg()"),
                       ("int a = 1;\nestimator.withSpec", "int a = 1;\nestimator.withSpecification(")]:
        names = completed(client, code)
        check("completed " + code.split("\n")[-1], name in names, names[:4])

    began = time.monotonic()
    words = []
    run(client, 'for (int i = 0; i < 3; i++) { System.out.print("."); Thread.sleep(1000); }',
        lambda: words.append(time.monotonic() - began))
    check("words while a cell runs", bool(words) and words[0] < time.monotonic() - began - 1, f"{len(words)}")

    stopped = 0
    for turn in range(TIMES):
        status, outputs = run(client, BUSY[turn % len(BUSY)], manager.interrupt_kernel)
        reasons = [content["evalue"] for kind, content in outputs if kind == "error"]
        good = status == "error" and reasons and "interrupted" in reasons[0]
        status, outputs = run(client, "kept++")
        value = [content["data"]["text/plain"] for kind, content in outputs if kind == "execute_result"]
        stopped += good and value == [str(42 + turn)]
        if not good or value != [str(42 + turn)]:
            print(turn, reasons, value, file=sys.stderr)
    check("interrupted, and what was made before is there", stopped == TIMES, f"{stopped} of {TIMES}")
    status, outputs = run(client, "estimate.kg(\"striploin\")")
    check("and works on", status == "ok", status)
except Empty:
    check("the kernel answers", False, f"nothing for {SECONDS} s")
finally:
    client.stop_channels()
    manager.shutdown_kernel(now=True)
sys.exit(1 if failed else 0)
