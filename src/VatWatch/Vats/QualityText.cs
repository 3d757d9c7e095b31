namespace VatWatch.Vats;

/// <summary>Words of <see cref="Quality"/> in files and tables.</summary>
public static class QualityText
{
    /// <summary>The word.</summary>
    public static string Word(this Quality quality) => quality switch
    {
        Quality.Good => "good",
        Quality.Suspect => "suspect",
        Quality.Missing => "missing",
        Quality.Fault => "fault",
        _ => throw new ArgumentOutOfRangeException(nameof(quality), quality, "is not a quality"),
    };

    /// <summary>The quality of a word.</summary>
    /// <exception cref="InvalidDataException">It is none of the four.</exception>
    public static Quality Parse(string word) => word switch
    {
        "good" => Quality.Good,
        "suspect" => Quality.Suspect,
        "missing" => Quality.Missing,
        "fault" => Quality.Fault,
        _ => throw new InvalidDataException($"quality is '{word}'; wanted good, suspect, missing or fault"),
    };
}
