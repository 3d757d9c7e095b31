using VatWatch.Science.Electrodes;

namespace VatWatch.Calibration;

/// <summary>One thing that was looked at in a calibration.</summary>
/// <param name="Verdict">How it is.</param>
/// <param name="Sentence">In words, with the figure and the limit it was held against.</param>
public sealed record CalibrationFinding(ElectrodeVerdict Verdict, string Sentence);
