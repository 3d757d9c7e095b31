namespace VatWatch.Science.Electrodes.Ph;

/// <summary>
/// Slope and offset beyond which a pH electrode is called worn or unfit. Makers' and laboratories' limits differ and no primary
/// standard was found, so all are settings; the defaults are our choice from those in print. Immutable; safe on any thread.
/// </summary>
/// <param name="WornBelowPercent">Slope below which the electrode is worn, per cent of Nernst; default 95.</param>
/// <param name="WornAbovePercent">Slope above which the calibration is doubtful, per cent; default 102.</param>
/// <param name="UnfitBelowPercent">Slope below which it is unfit, per cent; default 85 (a laboratory pH-meter guide, 1996).</param>
/// <param name="UnfitAbovePercent">Slope above which it is unfit, per cent; default 105 (an electrode maker's note).</param>
/// <param name="WornBeyondMillivolts">Offset at pH 7, either sign, beyond which it is worn, mV; default 20.</param>
/// <param name="UnfitBeyondMillivolts">Offset at pH 7, either sign, beyond which it is unfit, mV; default 60.</param>
public sealed record PhElectrodeLimits(
    double WornBelowPercent = 95,
    double WornAbovePercent = 102,
    double UnfitBelowPercent = 85,
    double UnfitAbovePercent = 105,
    double WornBeyondMillivolts = 20,
    double UnfitBeyondMillivolts = 60)
{
    /// <summary>Judges a calibration; a value exactly at a limit is still on its better side.</summary>
    public ElectrodeVerdict Judge(PhLine line)
    {
        var percent = line.SlopePercent;
        var offset = Math.Abs(line.OffsetMillivolts);
        if (!(percent >= UnfitBelowPercent && percent <= UnfitAbovePercent && offset <= UnfitBeyondMillivolts))
            return ElectrodeVerdict.Unfit;

        return percent >= WornBelowPercent && percent <= WornAbovePercent && offset <= WornBeyondMillivolts
            ? ElectrodeVerdict.Good
            : ElectrodeVerdict.Worn;
    }
}
