namespace VatWatch.Daemon.Verbs;

/// <summary>Where a verb writes: answers to <paramref name="Out"/>, errors to <paramref name="Error"/>. Tests hand in their own.</summary>
internal sealed record VerbConsole(TextWriter Out, TextWriter Error)
{
    /// <summary>Writes an error sentence and gives back <paramref name="code"/>.</summary>
    public int Fail(int code, string sentence)
    {
        Error.WriteLine($"vatwatch: {sentence}");
        return code;
    }
}
