namespace VatWatch.Probes.Serial.Lines;

/// <summary>A probe that sends its question and takes its value from the line that comes back.</summary>
internal sealed class AskedLineProbe(SerialBus bus, ProbeDefinition definition, TextLineSettings settings, AskText ask, KnownTemperatures known) : IProbe
{
    /// <summary>Oldest answer that a probe takes over from another that asked the same.</summary>
    private static readonly TimeSpan OldestShared = TimeSpan.FromMilliseconds(500);

    private readonly TimeSpan _maxAge = definition.Every / 2 < OldestShared ? definition.Every / 2 : OldestShared;

    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public string? Remark { get; private set; }

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        if (!ask.NeedsTemperature)
        {
            return await AskAsync(ask, cancel);
        }

        return known.Of(definition.Vat) is { } temperatureC ? AskText.Told(await AskAsync(ask.At(temperatureC), cancel), temperatureC) : AskText.Untold;
    }

    private async ValueTask<Sample> AskAsync(AskText question, CancellationToken cancel)
    {
        Remark = null;
        if (await bus.BeginAsync(settings, definition.Every, cancel) is { } refused)
        {
            return refused;
        }

        var answer = await bus.AskLineAsync(question, settings.Ending, settings.Pattern, definition.Id, _maxAge, cancel);
        if (answer.Line is { } line && settings.Pattern.Parse(line) is { } sample)
        {
            Remark = answer.PassedOver is { } passed ? $"passed over {passed} before its answer" : null;
            return sample;
        }

        return bus.Unanswered(question, answer, definition.Every);
    }
}
