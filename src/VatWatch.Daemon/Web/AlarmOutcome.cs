namespace VatWatch.Daemon.Web;

/// <summary>What became of an act on an alarm.</summary>
/// <param name="Kind">In a word.</param>
/// <param name="Sentence">What to tell.</param>
internal readonly record struct AlarmOutcome(AlarmOutcomeKind Kind, string Sentence);
