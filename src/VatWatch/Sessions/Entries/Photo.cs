namespace VatWatch.Sessions.Entries;

/// <summary>A photograph of the log book, drawn afresh from what was sent.</summary>
/// <param name="Jpeg">The file.</param>
public sealed record Photo(byte[] Jpeg)
{
    /// <summary>Most that are kept within a day.</summary>
    public const int MostADay = 200;

    /// <summary>Most that all of a store may take, GB, so that photographs never crowd the readings off the disk.</summary>
    public const double MostGigabytes = 2;

    /// <summary>Why this one is not kept beside those that are, as a sentence; null when it is.</summary>
    /// <param name="lastDay">Photographs of the last 24 hours.</param>
    /// <param name="bytes">What all photographs take, bytes.</param>
    public string? WhyNotBeside(long lastDay, long bytes) =>
        lastDay >= MostADay ? $"{lastDay} photographs were kept within a day; wanted at most {MostADay}. Try again tomorrow."
        : (bytes + Jpeg.Length) / 1e9 > MostGigabytes ? $"The photographs of the log book take {bytes / 1e9:0.0} GB; wanted at most {MostGigabytes:0.#} GB, to leave the disk to the readings."
        : null;
}
