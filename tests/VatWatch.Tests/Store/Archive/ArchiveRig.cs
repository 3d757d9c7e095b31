using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Store.Archive;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Archive;

/// <summary>A store with two vats whose readings reach over two ends of a month, and passes of the archiver over it.</summary>
internal static class ArchiveRig
{
    /// <summary>March and April of 2031 are old, May is not.</summary>
    public static readonly DateTimeOffset Later = new(2032, 6, 5, 0, 0, 0, TimeSpan.Zero);

    public static readonly StoreOptions Options = new();

    /// <summary>Every quarter of an hour for sixty days, two probes and two vats; a few without a value or doubtful.</summary>
    public static List<Measurement> SixtyDays() => [.. Enumerable.Range(0, 60 * 96).Select(n => n * 900.0).SelectMany(second => (Measurement[])
    [
        Reading(second, second % 5400 == 0 ? null : 40 + second % 7 / 8),
        Reading(second, -640.5, "platinum", measures: Quantity.Orp) with { Value = -634.13, Calibration = 3 },
        Reading(second + 1, 20, vat: Weld) with { Quality = Quality.Suspect, Reason = "it jumped" },
    ])];

    public static Archiver Archiver(StoreRig rig, Action<string>? reached = null, TimeProvider? io = null) =>
        new(rig.Folder, rig.Store, Options, io ?? TimeProvider.System, NullLogger<Archiver>.Instance) { Reached = reached ?? (_ => { }) };

    public static Task<int> PassAsync(StoreRig rig, Action<string>? reached = null) => Archiver(rig, reached).RunOnceAsync(Later, TestContext.Current.CancellationToken);

    public static string[] Files(StoreRig rig) => Directory.Exists(Path.Combine(rig.Folder, "archive"))
        ? [.. Directory.GetFiles(Path.Combine(rig.Folder, "archive")).Select(file => Path.GetFileName(file)).Order()]
        : [];
}
