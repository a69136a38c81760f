using System.Buffers.Binary;

namespace Scheduler.Service.Storage;

/// <summary>
/// New ids in rising order (version 7 of RFC 9562), so that a list ordered by id is in the order in which its things were made, also
/// within one millisecond.
/// </summary>
public static class NewId
{
    private static readonly Lock Turn = new();
    private static Guid _last;

    public static Guid Next()
    {
        lock (Turn)
        {
            var next = Guid.CreateVersion7();
            return _last = Compare(next, _last) > 0 ? next : After(_last);
        }
    }

    // The last 8 bytes but the two variant bits are random; counting up in their lower half keeps version and variant.
    private static Guid After(Guid id)
    {
        Span<byte> bytes = stackalloc byte[16];
        id.TryWriteBytes(bytes, bigEndian: true, out _);
        var tail = BinaryPrimitives.ReadUInt64BigEndian(bytes[8..]);
        var counter = (tail & Counted) + 1;
        // A run past the end would take as many ids in one millisecond as there are numbers of 62 bits.
        BinaryPrimitives.WriteUInt64BigEndian(bytes[8..], (tail & ~Counted) | (counter & Counted));
        return new Guid(bytes, bigEndian: true);
    }

    private const ulong Counted = 0x3FFF_FFFF_FFFF_FFFF;

    private static int Compare(Guid one, Guid other) => string.CompareOrdinal(one.ToString("N"), other.ToString("N"));
}
