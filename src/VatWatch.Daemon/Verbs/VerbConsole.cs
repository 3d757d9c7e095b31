namespace VatWatch.Daemon.Verbs;

/// <summary>Where a verb writes: answers to <paramref name="Out"/>, errors to <paramref name="Error"/>. Tests hand in their own.</summary>
/// <param name="Out">Answers.</param>
/// <param name="Error">Errors.</param>
/// <param name="Person">Lines of a person at the keyboard; null when there is nobody to ask.</param>
internal sealed record VerbConsole(TextWriter Out, TextWriter Error, TextReader? Person = null)
{
    /// <summary>Writes an error sentence and gives back <paramref name="code"/>.</summary>
    public int Fail(int code, string sentence)
    {
        Error.WriteLine($"vatwatch: {sentence}");
        return code;
    }
}
