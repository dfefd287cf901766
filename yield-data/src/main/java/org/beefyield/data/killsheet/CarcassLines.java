package org.beefyield.data.killsheet;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ThreadLocalRandom;

/**
 * In which line each carcass of a sheet stands. It holds every id, for a second one may come at the very end; packed, so
 * that a carcass with an id of ten bytes takes about forty, a quarter of what objects would.
 */
final class CarcassLines {
    private static final int CHUNK = 1 << 18;

    /** Places are counted in fours of bytes, so that an int reaches 8 GiB. */
    private static final int STEP = 4;

    private static final int IDS_BEGIN = 10;

    /** What a carcass id must be unique in. */
    private record LotOfDay(String killDate, String lot) {}

    private final Map<LotOfDay, Integer> lots = new HashMap<>();
    private LotOfDay last = new LotOfDay("", "");
    private int lastNumber;
    private final List<ByteBuffer> chunks = new ArrayList<>();
    /** Place of an entry and one more; 0 is free. A power of two of them, at most half of them taken. */
    private int[] slots = new int[1 << 10];

    private int taken;

    /** The same for the first entry of each id, whatever its lot and day. */
    private int[] idSlots = new int[1 << 10];

    private int ids;
    private long elsewhere;

    /** No sheet can be written so that its ids all fall on one slot. */
    private final long multiplier = ThreadLocalRandom.current().nextLong() | 1;

    /**
     * Puts a carcass down, unless it stands in a line already.
     *
     * @return that line, or 0
     */
    long putIfAbsent(String killDate, String lot, String id, long line) {
        int number = number(killDate, lot);
        byte[] bytes = id.getBytes(StandardCharsets.UTF_8);
        int slot = slot(slots, number, bytes);
        while (slots[slot] != 0) {
            ByteBuffer chunk = chunk(slots[slot] - 1);
            int at = offset(slots[slot] - 1);
            if (isEntry(chunk, at, number, bytes)) {
                return Integer.toUnsignedLong(chunk.getInt(at + 4));
            }
            slot = (slot + 1) & (slots.length - 1);
        }
        int place = add(number, line, bytes);
        slots[slot] = place + 1;
        taken++;
        if (2L * taken > slots.length) {
            slots = spread(slots, false);
        }
        elsewhere = firstOfId(bytes, place);
        return 0;
    }

    /**
     * Where the carcass that was put down last stands in another lot or on another day.
     *
     * @return the first such line, or 0
     */
    long elsewhere() {
        return elsewhere;
    }

    /** The line of the first entry of an id, or 0 if this is it. */
    private long firstOfId(byte[] id, int place) {
        int slot = slot(idSlots, 0, id);
        while (idSlots[slot] != 0) {
            ByteBuffer chunk = chunk(idSlots[slot] - 1);
            int at = offset(idSlots[slot] - 1);
            if (isId(chunk, at, id)) {
                return Integer.toUnsignedLong(chunk.getInt(at + 4));
            }
            slot = (slot + 1) & (idSlots.length - 1);
        }
        idSlots[slot] = place + 1;
        ids++;
        if (2L * ids > idSlots.length) {
            idSlots = spread(idSlots, true);
        }
        return 0;
    }

    /** Number of a lot of a day, from 1; the rows of one stand together as a rule. */
    private int number(String killDate, String lot) {
        if (lastNumber == 0 || !lot.equals(last.lot()) || !killDate.equals(last.killDate())) {
            last = new LotOfDay(killDate, lot);
            lastNumber = lots.computeIfAbsent(last, any -> lots.size() + 1);
        }
        return lastNumber;
    }

    private static boolean isEntry(ByteBuffer chunk, int at, int lot, byte[] id) {
        return chunk.getInt(at) == lot && isId(chunk, at, id);
    }

    private static boolean isId(ByteBuffer chunk, int at, byte[] id) {
        if (chunk.getShort(at + 8) != id.length) {
            return false;
        }
        for (int i = 0; i < id.length; i++) {
            if (chunk.get(at + IDS_BEGIN + i) != id[i]) {
                return false;
            }
        }
        return true;
    }

    private int add(int lot, long line, byte[] id) {
        int length = (IDS_BEGIN + id.length + STEP - 1) / STEP * STEP;
        if (chunks.isEmpty() || chunks.get(chunks.size() - 1).remaining() < length) {
            chunks.add(ByteBuffer.allocate(CHUNK));
        }
        ByteBuffer chunk = chunks.get(chunks.size() - 1);
        int at = chunk.position();
        chunk.putInt(at, lot).putInt(at + 4, (int) line).putShort(at + 8, (short) id.length);
        chunk.position(at + IDS_BEGIN).put(id).position(at + length);
        return Math.toIntExact(((chunks.size() - 1L) * CHUNK + at) / STEP);
    }

    private ByteBuffer chunk(int place) {
        return chunks.get(place / (CHUNK / STEP));
    }

    private static int offset(int place) {
        return place % (CHUNK / STEP) * STEP;
    }

    private int slot(int[] among, int lot, byte[] id) {
        long hash = lot;
        for (byte one : id) {
            hash = (hash + one) * multiplier;
            hash ^= hash >>> 32;
        }
        return (int) hash & (among.length - 1);
    }

    private int[] spread(int[] before, boolean ofIds) {
        int[] after = new int[2 * before.length];
        for (int entry : before) {
            if (entry != 0) {
                ByteBuffer chunk = chunk(entry - 1);
                int at = offset(entry - 1);
                byte[] id = new byte[chunk.getShort(at + 8)];
                chunk.get(at + IDS_BEGIN, id);
                int slot = slot(after, ofIds ? 0 : chunk.getInt(at), id);
                while (after[slot] != 0) {
                    slot = (slot + 1) & (after.length - 1);
                }
                after[slot] = entry;
            }
        }
        return after;
    }
}
