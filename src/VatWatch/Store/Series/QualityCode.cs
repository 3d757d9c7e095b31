namespace VatWatch.Store.Series;

/// <summary>Numbers that stand for <see cref="Quality"/> in the file. They grow with how bad it is, so the worst is the largest.</summary>
internal static class QualityCode
{
    /// <summary>0 good, 1 suspect, 2 missing, 3 fault.</summary>
    public static long Of(Quality quality) => quality switch
    {
        Quality.Good => 0,
        Quality.Suspect => 1,
        Quality.Missing => 2,
        Quality.Fault => 3,
        _ => throw new ArgumentOutOfRangeException(nameof(quality), quality, "is not a quality"),
    };

    public static Quality Parse(long code) => code switch
    {
        0 => Quality.Good,
        1 => Quality.Suspect,
        2 => Quality.Missing,
        3 => Quality.Fault,
        _ => throw new InvalidDataException($"quality code is {code}; wanted 0 to 3"),
    };
}
