namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>A guided calibration that came to nothing; the message is a sentence for the person.</summary>
internal sealed class GuideEndedException(string sentence) : Exception(sentence);
