namespace VatWatch.Probes.Serial;

/// <summary>A probe that sends its question and takes its value from the line that comes back.</summary>
internal sealed class AskedLineProbe(SerialBus bus, ProbeDefinition definition, TextLineSettings settings, AskText ask) : IProbe
{
    /// <summary>Oldest answer that a probe takes over from another that asked the same.</summary>
    private static readonly TimeSpan OldestShared = TimeSpan.FromMilliseconds(500);

    private readonly TimeSpan _maxAge = definition.Every / 2 < OldestShared ? definition.Every / 2 : OldestShared;

    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        var answer = await bus.AskLineAsync(ask, settings.Ending, settings.Pattern, definition.Id, _maxAge, cancel);
        if (answer.Line is { } line && settings.Pattern.Parse(line) is { } sample)
        {
            return sample;
        }

        if (answer.Instead is { } instead)
        {
            return Sample.Fault($"the answer to '{ask.Text}' within {bus.Settings.ReplyTimeout.TotalMilliseconds:0} ms was {instead}");
        }

        bus.Session.NoteUnanswered(definition.Every);
        return Sample.Missing(answer.Held ?? $"no answer to '{ask.Text}' within {bus.Settings.ReplyTimeout.TotalMilliseconds:0} ms");
    }
}
