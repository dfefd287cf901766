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
 * that a carcass with an id of ten bytes takes about thirty, a fifth of what objects would.
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
        int slot = slot(number, bytes);
        while (slots[slot] != 0) {
            ByteBuffer chunk = chunk(slots[slot] - 1);
            int at = offset(slots[slot] - 1);
            if (isEntry(chunk, at, number, bytes)) {
                return Integer.toUnsignedLong(chunk.getInt(at + 4));
            }
            slot = (slot + 1) & (slots.length - 1);
        }
        slots[slot] = add(number, line, bytes) + 1;
        taken++;
        if (2L * taken > slots.length) {
            spread();
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
        if (chunk.getInt(at) != lot || chunk.getShort(at + 8) != id.length) {
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

    private int slot(int lot, byte[] id) {
        long hash = lot;
        for (byte one : id) {
            hash = (hash + one) * multiplier;
            hash ^= hash >>> 32;
        }
        return (int) hash & (slots.length - 1);
    }

    private void spread() {
        int[] before = slots;
        slots = new int[2 * before.length];
        for (int entry : before) {
            if (entry != 0) {
                ByteBuffer chunk = chunk(entry - 1);
                int at = offset(entry - 1);
                byte[] id = new byte[chunk.getShort(at + 8)];
                chunk.get(at + IDS_BEGIN, id);
                int slot = slot(chunk.getInt(at), id);
                while (slots[slot] != 0) {
                    slot = (slot + 1) & (slots.length - 1);
                }
                slots[slot] = entry;
            }
        }
    }
}
