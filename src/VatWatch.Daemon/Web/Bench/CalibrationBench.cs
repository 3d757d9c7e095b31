using System.Collections.Concurrent;
using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Pipeline;
using VatWatch.Science.Electrodes;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Bench;

/// <summary>
/// The calibrations that are being made by page, one for each electrode, so that a phone at the bench and one at the desk see the same. They are in memory
/// only: what is not kept is gone with a restart. Thread safe.
/// </summary>
internal sealed class CalibrationBench(ILiveFeed feed, ElectrodeFollower follower, CalibrationRules rules, StoreQueries store, WatchStore writer, TimeProvider time)
{
    private static readonly TimeSpan LongestWrite = TimeSpan.FromSeconds(10);

    private readonly ConcurrentDictionary<ProbeId, BenchWork> _works = new();

    /// <summary>Every electrode that is calibrated here, with its vat.</summary>
    public IEnumerable<(VatDefinition Vat, ProbeDefinition Probe)> Electrodes => feed.Vats.SelectMany(live =>
        live.Definition.Probes.Where(Calibrator.CanCalibrate).Select(probe => (live.Definition, probe)));

    public CalibrationLimits LimitsOf(ProbeDefinition probe) => rules.Of(probe);

    /// <summary>Every calibration in the store; null when it cannot be read now.</summary>
    public async Task<CalibrationCache?> CalibrationsAsync(CancellationToken cancel) => (await store.TryReadAsync(
        reader =>
        {
            var calibrations = new CalibrationCache();
            StoredCalibrations.Fill(calibrations, reader);
            return calibrations;
        },
        cancel)).Value;

    /// <summary>What is done of a probe's calibration.</summary>
    public BenchWork WorkOf(ProbeDefinition probe) => _works.GetValueOrDefault(probe.Id, BenchWork.Fresh);

    /// <summary>What the probe shows now.</summary>
    public ElectrodeSnapshot Evaluate(ProbeDefinition probe) => follower.Evaluate(probe);

    /// <summary>The electrode stands in a solution from now on.</summary>
    public void Begin(ProbeDefinition probe, BufferChoice choice, BenchSolution solution)
    {
        follower.Begin(probe);
        _works.AddOrUpdate(probe.Id, BenchWork.Fresh with { Choice = choice, Solution = solution }, (_, work) => work with { Choice = choice, Solution = solution });
    }

    /// <summary>Takes the point of the solution it stands in; a sentence when that cannot be.</summary>
    public string? Take(VatDefinition vat, ProbeDefinition probe, CalibrationCache calibrations)
    {
        var work = WorkOf(probe);
        var reference = ReferenceElectrode.TryParse(vat.Orp?.Reference, out var known) ? known : null;
        if (work.Take(follower.Evaluate(probe), reference, Before(probe, calibrations) as PhCalibration, out var whyNot) is not { } taken)
        {
            return whyNot;
        }

        return _works.TryUpdate(probe.Id, taken, work) ? null : "Somebody else took this point at the same moment.";
    }

    /// <summary>Begins anew; what was not kept is gone.</summary>
    public void Clear(ProbeDefinition probe) => _works.TryRemove(probe.Id, out _);

    /// <summary>Keeps what was found; a sentence when it was not.</summary>
    public async Task<string?> KeepAsync(ProbeDefinition probe, CalibrationCache calibrations, bool keep, CancellationToken cancel)
    {
        var work = WorkOf(probe);
        var before = Before(probe, calibrations);
        if (work.Found(before as PhCalibration, out var whyNot) is not { } found)
        {
            return whyNot ?? "No solution has been taken yet.";
        }

        try
        {
            var now = time.GetUtcNow();
            var outcome = await CalibrationOutcome.FileAsync(probe, found, before, LimitsOf(probe), keep, now, () => writer
                .WriteAsync(transaction => CalibrationTable.Append(transaction, probe.Id, now, CalibrationDocument.Write(found)), cancel)
                .WaitAsync(LongestWrite, TimeProvider.System, cancel));
            if (outcome.Refusal is { } refusal)
            {
                return $"{refusal.Capitalized()} by ticking the box.";
            }

            Clear(probe);
            return null;
        }
        catch (Exception caught) when (caught is StoreUnavailableException or TimeoutException)
        {
            return "The calibration could not be written to the disk, so it may be missing; look at the list and try again.";
        }
    }

    private static ElectrodeCalibration? Before(ProbeDefinition probe, CalibrationCache calibrations) => calibrations.InUse(probe.Id)?.Calibration;
}
