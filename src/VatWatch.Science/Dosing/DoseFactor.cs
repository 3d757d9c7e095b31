namespace VatWatch.Science.Dosing;

/// <summary>
/// How many times what theory asks for one vat takes of one kind of dose: log-normal, learned from its past doses by Bayes' rule (a Kalman filter of one state; R. E. Kalman, J. Basic
/// Eng. 82, 1960, 35). Immutable; safe on any thread.
/// </summary>
/// <param name="LogMean">Mean of the factor's natural logarithm.</param>
/// <param name="LogSigma">Standard deviation of it.</param>
/// <param name="Doses">Past doses that it rests on.</param>
public sealed record DoseFactor(double LogMean, double LogSigma, int Doses)
{
    /// <summary>Half-width of a range of 80 % in standard deviations.</summary>
    private const double RangeSigmas = 1.2816;

    /// <summary>So many doses make the range of the next narrow enough to give its low end at once.</summary>
    public const int TaughtDoses = 3;

    /// <summary>Before any dose: theory, and how far it may be off.</summary>
    public static DoseFactor Untried(double logSigma) => new(0, logSigma, 0);

    /// <summary>Its median.</summary>
    public double Times => Math.Exp(LogMean);

    /// <summary>What a dose teaches that was given and answered.</summary>
    /// <param name="givenGrams">What went in, g, above 0.</param>
    /// <param name="theoryGrams">What theory asks for the answer that was read, g, above 0.</param>
    /// <param name="logSigma">How far their ratio may be off by the readings and the scale, as a logarithm.</param>
    public DoseFactor Learn(double givenGrams, double theoryGrams, double logSigma)
    {
        var surprise = Math.Log(Wanted.Positive(givenGrams, "g") / Wanted.Positive(theoryGrams, "g")) - LogMean;
        var (known, read) = (LogSigma * LogSigma, logSigma * logSigma);
        var gain = known / (known + read);
        return new(LogMean + gain * surprise, Math.Sqrt((1 - gain) * known), Doses + 1);
    }

    /// <summary>The liquor has changed meanwhile.</summary>
    public DoseFactor Widen(double logSigma) => this with { LogSigma = Math.Sqrt(LogSigma * LogSigma + logSigma * logSigma) };

    /// <summary>What stands beside the known, unseen, stays while the known grows: the excess over 1 shrinks by this ratio of the known before to the known after.</summary>
    public DoseFactor Dilute(double ratio)
    {
        var times = Math.Max(0.1, 1 + (Times - 1) * ratio);
        return this with { LogMean = Math.Log(times), LogSigma = LogSigma * ratio * Times / times };
    }

    /// <summary>The range of 80 % of the next dose, g.</summary>
    /// <param name="theoryGrams">What theory asks for, g.</param>
    /// <param name="logSigma">How far the reading now and this one dose may be off besides.</param>
    public MassRange Range(double theoryGrams, double logSigma)
    {
        var half = RangeSigmas * Widen(logSigma).LogSigma;
        return new(theoryGrams * Math.Exp(LogMean - half), theoryGrams * Math.Exp(LogMean + half));
    }

    /// <summary>The first portion, g: the low end of the range once enough was learned, which cannot well be too much; null before.</summary>
    internal double? FirstPortion(double lowGrams) => Doses >= TaughtDoses ? lowGrams : null;
}

/// <summary>What a dose by response says of itself: on how many past doses it rests, with theory beside it.</summary>
internal static class LearnedText
{
    public static string Of(DoseFactor factor, double theoryGrams) => factor.Doses == 0
        ? $"By theory it would be {InWords.Mass(theoryGrams)}. No past dose of this vat has good readings a quarter of an hour before it and after its wait, so the range is as wide as theory is unsure; "
            + "log each dose when it goes in, and let nothing else go in until the wait is over."
        : $"It rests on {factor.Doses} past {(factor.Doses == 1 ? "dose" : "doses")} of this vat, which took {InWords.Plain(factor.Times)} times what theory asks for; by theory alone it would be {InWords.Mass(theoryGrams)}.";
}
