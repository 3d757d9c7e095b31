using VatWatch.Conditions;
using VatWatch.Nights.Scenes;
using VatWatch.Nights.Scoring;
using VatWatch.Probes.Recorded;
using VatWatch.Testing;

namespace VatWatch.Tests.Nights;

/// <summary>The nights themselves, and the watch on a few of them. The table over 300 is a command: tests/VatWatch.Nights/Program.cs.</summary>
public sealed class MadeNightsTests
{
    [Fact]
    public void The_same_seed_gives_the_same_night()
    {
        var (one, again) = (NightMaker.Make(9), NightMaker.Make(9));
        Assert.Equal(one.Configuration, again.Configuration);
        Assert.Equal(one.Rows, again.Rows);
        Assert.Equal(one.Truth.Points, again.Truth.Points);
        Assert.NotEqual(one.Rows, NightMaker.Make(39).Rows);
    }

    [Fact]
    public void Any_thirty_seeds_hold_every_kind() =>
        Assert.Equal(Enum.GetValues<NightKind>().Order(), Enumerable.Range(1007, NightKinds.Period).Select(NightKinds.Of).Distinct().Order());

    [Fact]
    public void Readings_come_in_order_in_the_probes_steps_and_the_truth_of_a_runaway_is_in_them()
    {
        var night = NightMaker.Make(31, NightKind.StuckFromStart);
        Assert.Equal(night.Rows.Select(row => row.Time).Order(), night.Rows.Select(row => row.Time));
        Assert.All(night.Rows, row => Assert.NotNull(row.Value));
        var crosses = night.Truth.ReadingCrosses;
        Assert.NotNull(crosses);
        Assert.Contains(night.Rows, row => row.Time == crosses && row.Value >= night.Truth.Limit);
        Assert.Equal(night.Truth.LiquorCrosses!.Value, crosses.Value, TimeSpan.FromMinutes(40));
    }

    [Fact]
    public void A_night_in_a_folder_is_what_replay_reads()
    {
        var folder = Directory.CreateTempSubdirectory("vatwatch-night");
        try
        {
            var night = NightMaker.Make(37, NightKind.DipDay);
            NightFolder.Write(night, folder.FullName);
            using var text = new StreamReader(Path.Combine(folder.FullName, "log.csv"));
            Assert.Equal(night.Rows, RecordedLog.Read(text, fault => Assert.Fail(fault.ToString())));
            var entries = File.ReadAllLines(Path.Combine(folder.FullName, "entries.csv"));
            Assert.Equal("time,entry,value", entries[0]);
            Assert.Contains(entries, line => line.EndsWith(",yarn-in,", StringComparison.Ordinal));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void The_second_physics_names_nothing_of_the_first()
    {
        var sources = Directory.EnumerateFiles(Path.Combine(SourceTree.Root, "tests", "VatWatch.Nights"), "*.cs", SearchOption.AllDirectories).ToList();
        Assert.NotEmpty(sources);
        Assert.All(sources, file =>
        {
            var text = File.ReadAllText(file);
            Assert.DoesNotContain("VatWatch.Science", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Probes.Simulation", text, StringComparison.Ordinal);
        });
    }

    /// <summary>A night in which the liquor bends from a brisk rise to a slow one half a kelvin below where the heater came on again the night before.</summary>
    [Fact]
    public void A_quick_thermostat_that_acts_a_little_cooler_than_the_night_before_makes_no_weak_heater() =>
        Assert.DoesNotContain(NightReplay.Of(NightMaker.Make(18300)).Diagnoses, said => said.Kind == DiagnosisKind.WeakHeater);

    [Fact]
    public void On_thirty_nights_every_runaway_is_told_at_its_limit_and_no_dip_is_taken_for_decay()
    {
        var (board, _, _) = ScoredNights.Of([.. Enumerable.Range(1, NightKinds.Period)]);
        Held("runaway: overheat within 15 s of the reading");
        Held("dips taken for decay, a day");

        void Held(string name)
        {
            var figure = board.Figures.Single(one => one.Name == name);
            Assert.NotEmpty(figure.Cases);
            Assert.True(figure.IsHeld, $"{name}: {figure.Say(figure.Reached!.Value)}; {string.Join("; ", figure.Cases.Where(one => one.FallsShort is not null))}");
        }
    }
}
