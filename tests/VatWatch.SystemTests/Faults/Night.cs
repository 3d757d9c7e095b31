using System.Diagnostics;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>A daemon on a bench instrument with a broker and a phone, some seconds into a quiet night.</summary>
internal sealed class Night : IAsyncDisposable
{
    private const string Topics = "vatwatch/test-studio/";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    public required MosquittoBroker Broker { get; init; }

    public required PtyInstrument Instrument { get; init; }

    public required MosquittoSub Phone { get; init; }

    public required VatWatchProcess Watch { get; set; }

    /// <summary>What the phone was shown so far.</summary>
    public ShownNight Shown => new(Phone.Messages);

    /// <summary>Writes the configuration, starts everything, and waits until readings are on the disk. Overheat has no delay here.</summary>
    public static async Task<Night> StartAsync(Studio studio)
    {
        var broker = await MosquittoBroker.StartAsync();
        var instrument = await PtyInstrument.AskedAsync();
        var phone = await MosquittoSub.StartAsync(new(broker.Port), Topics + "#");
        Configure(studio, instrument, broker.Port);
        await CalmAsync(instrument);
        var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        var night = new Night { Broker = broker, Instrument = instrument, Phone = phone, Watch = watch };
        await phone.WaitForAsync(Topics + "weld-yard/measurement/liquor", limit: Patience);
        await Task.Delay(TimeSpan.FromSeconds(2.5), TestContext.Current.CancellationToken);
        return night;
    }

    /// <summary>The configuration of such a night, with a broker at <paramref name="port"/>.</summary>
    public static void Configure(Studio studio, PtyInstrument instrument, int port) => studio.WriteBenchConfig(
        instrument.Port, $$"""{ "broker": "mqtt://127.0.0.1:{{port}}" }""", every: "100 ms", alarms: """{ "overheat": { "onDelay": "0 s", "offDelay": "0 s" } }""");

    /// <summary>Sets the instrument to a vat in condition.</summary>
    public static async Task CalmAsync(PtyInstrument instrument)
    {
        await instrument.TellAsync("set T 45");
        await instrument.TellAsync("set ORP -705");
        await instrument.TellAsync("set PH 10.02");
    }

    /// <summary>Overheats the vat, and waits until the phone has the sentence.</summary>
    /// <returns>How long that took.</returns>
    public async Task<TimeSpan> OverheatAsync()
    {
        var began = Stopwatch.StartNew();
        await Instrument.TellAsync("set T 50");
        await Phone.WaitForAsync(Topics + "weld-yard/notification", message => message.Payload.Contains("too hot", StringComparison.Ordinal), Patience);
        return began.Elapsed;
    }

    /// <summary>Waits until the phone knows that the store fails.</summary>
    public async Task WaitForStoreFaultAsync() =>
        await Phone.WaitForAsync(Topics + "daemon/alarm/store-fault", message => message.Payload.Contains("\"unacknowledged\"", StringComparison.Ordinal), Patience);

    public async ValueTask DisposeAsync()
    {
        await Watch.DisposeAsync();
        Phone.Dispose();
        await Instrument.DisposeAsync();
        await Broker.DisposeAsync();
    }
}
