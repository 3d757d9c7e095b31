using SQLitePCL;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Stores a double exactly in as few bytes as SQLite allows. Instruments give decimals ("43.62"), which as a double take 8 bytes and as the
/// whole number 4362 with "two decimals" beside it take 2. Anything that does not come back bit for bit is stored as the double itself.
/// </summary>
/// <remarks>Layout in FORMAT.md, "Packed numbers".</remarks>
internal static class PackedNumber
{
    /// <summary>Null, a <see cref="long"/>, a <see cref="double"/> or 8 bytes, ready to be bound.</summary>
    public static object? Pack(double? value)
    {
        if (value is not { } number)
        {
            return null;
        }

        return double.IsNaN(number) ? BitsOf(number) : WholeOf(number) is { } whole ? (object)whole : number;
    }

    /// <summary>The 8 bytes of a NaN: SQLite turns it into NULL, and missing is not a number.</summary>
    public static byte[] BitsOf(double nan) => BitConverter.GetBytes(BitConverter.DoubleToInt64Bits(nan));

    /// <summary>The packed form of a number that is a decimal; null for one that is stored as it is.</summary>
    public static long? WholeOf(double number)
    {
        for (var form = 0; form < Scales.Length; form++)
        {
            var rounded = Math.Round(number * Scales[form]);
            if (Math.Abs(rounded) <= LargestWhole && (long)rounded is var whole && SameBits(whole / Scales[form], number))
            {
                return (whole << 2) | (long)form;
            }
        }

        return null;
    }

    /// <summary>What <see cref="Pack"/> was given.</summary>
    public static double? Unpack(StoreRow row, int column)
    {
        var value = row.Value(column);
        return value.Kind switch
        {
            raw.SQLITE_NULL => null,
            raw.SQLITE_INTEGER => value.Whole is var packed ? (packed >> 2) / Scales[packed & 3] : null,
            raw.SQLITE_FLOAT => value.Real,
            raw.SQLITE_BLOB when row.GetBytes(column) is { Length: 8 } bits => BitConverter.Int64BitsToDouble(BitConverter.ToInt64(bits)),
            var other => throw new InvalidDataException($"a packed number is of type {other}; wanted an integer, a real or 8 bytes"),
        };
    }

    private static bool SameBits(double left, double right) =>
        BitConverter.DoubleToInt64Bits(left) == BitConverter.DoubleToInt64Bits(right);

    /// <summary>No, one, two and four decimals; powers of ten this small are exact doubles, so the division is correctly rounded.</summary>
    private static readonly double[] Scales = [1, 10, 100, 10_000];

    /// <summary>With the two bits of the form this still fits the 6-byte integer of SQLite; more would save nothing over the double.</summary>
    private const double LargestWhole = (1L << 45) - 1;
}
