using Microsoft.Extensions.Time.Testing;
using VatWatch.Measurements;
using VatWatch.Store;
using static VatWatch.Tests.Store.Archive.ArchiveRig;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Archive;

public sealed class ArchiverTests
{
    [Fact]
    public async Task Old_months_leave_the_database_and_are_read_as_before()
    {
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        var before = rig.All();

        Assert.Equal(4, await PassAsync(rig));

        Assert.Equal(["madder-lane-2031-03.parquet", "madder-lane-2031-04.parquet", "weld-yard-2031-03.parquet", "weld-yard-2031-04.parquet"], Files(rig));
        Assert.Equal(before, rig.All());
        Assert.Equal(before.Count(m => m.Stamp.Utc.Month == 5), rig.Read(reader => reader.Sql.Whole("SELECT count(*) FROM measurement")));
        Assert.Empty(rig.Read(reader => reader.Verify()));
        Assert.Equal(0, await PassAsync(rig));
    }

    [Fact]
    public async Task A_span_that_lies_in_the_archive_is_read_for_one_vat_columns_and_the_oldest_label()
    {
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        var (from, to) = (Dusk.AddDays(16.7), Dusk.AddDays(18.2));
        var before = rig.Read(reader => reader.Measurements(Madder, from, to).ToList());
        var columns = rig.Read(reader => reader.Columns(Madder, new("liquor"), from, to, 300, TimeSpan.FromHours(1)));
        var wide = rig.Read(reader => reader.Columns(Madder, new("liquor"), Dusk, Dusk.AddDays(60), 40, TimeSpan.FromHours(1)));
        var span = rig.Read(reader => reader.Span(Weld));

        await PassAsync(rig);

        Assert.Equal(before, rig.Read(reader => reader.Measurements(Madder, from, to).ToList()));
        Assert.Equal(columns, rig.Read(reader => reader.Columns(Madder, new("liquor"), from, to, 300, TimeSpan.FromHours(1))));
        Assert.Equal(wide, rig.Read(reader => reader.Columns(Madder, new("liquor"), Dusk, Dusk.AddDays(60), 40, TimeSpan.FromHours(1))));
        Assert.Equal(span, rig.Read(reader => reader.Span(Weld)));
    }

    /// <summary>Every step of a pass in turn is the last before a power cut; what is read never changes, and the next pass ends the work.</summary>
    [Fact]
    public async Task Cut_off_at_any_step_nothing_is_lost_and_nothing_doubled()
    {
        var steps = 0;
        await using (var whole = Start())
        {
            await whole.OfferAsync(SixtyDays());
            await PassAsync(whole, _ => steps++);
        }

        Assert.InRange(steps, 16, 60);
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        var before = rig.All();
        for (var cut = 1; cut <= steps; cut += 3)
        {
            var left = cut % 4 + 1;
            try
            {
                await PassAsync(rig, _ =>
                {
                    if (--left == 0)
                    {
                        throw new OperationCanceledException("the power is cut");
                    }
                });
            }
            catch (OperationCanceledException)
            {
                Assert.Equal(before, rig.All());
            }
        }

        await PassAsync(rig);
        Assert.Equal(before, rig.All());
        Assert.Equal(before.Count(m => m.Stamp.Utc.Month == 5), rig.Read(reader => reader.Sql.Whole("SELECT count(*) FROM measurement")));
    }

    [Fact]
    public async Task A_file_that_a_kill_left_half_written_is_made_anew()
    {
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        var before = rig.All();
        Directory.CreateDirectory(Path.Combine(rig.Folder, "archive"));
        File.WriteAllText(Path.Combine(rig.Folder, "archive", "madder-lane-2031-03.parquet.part"), "PAR1 half");
        File.WriteAllText(Path.Combine(rig.Folder, "archive", "weld-yard-2031-03.parquet"), "PAR1 nothing of ours");

        await PassAsync(rig);

        Assert.Equal(before, rig.All());
        Assert.Contains("weld-yard-2031-03.parquet-damaged", Files(rig));
        Assert.DoesNotContain(Files(rig), file => file.EndsWith(".part", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_reading_that_comes_late_into_an_archived_month_is_read_too()
    {
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        var before = rig.All();
        var isFirst = true;
        await PassAsync(rig, step =>
        {
            if (step == "remove" && isFirst)
            {
                isFirst = false;
                rig.Store.Enqueue(Reading(450, 77)); // the clock is set back while the archiver works
                rig.Store.Enqueue(Reading(900, 78));
            }
        });
        await rig.OfferAsync(Reading(1350, 79), Reading(1800, 80)); // and after it: the place of the last is taken in the archive

        var after = rig.All();
        Assert.Equal(before.Count + 4, after.Count);
        Assert.Equal([77, 78, 79, 80], after.Where(m => m.Value is >= 77 and <= 80).Select(m => m.Value!.Value));
        Assert.Empty(rig.Read(reader => reader.Verify()));
    }

    [Fact]
    public async Task The_archive_is_taken_up_again_when_the_database_is_lost()
    {
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        await PassAsync(rig);
        var kept = rig.All().Where(m => m.Stamp.Utc.Month < 5).ToList();
        await rig.StopAsync();
        File.Delete(Path.Combine(rig.Folder, "vatwatch.db"));

        var again = Start(folder: rig.Folder);
        Assert.Equal(4, await PassAsync(again));
        Assert.Equal(kept, again.All());
        await again.StopAsync();
    }

    [Fact]
    public async Task A_damaged_or_missing_file_is_said_in_a_sentence_and_the_rest_is_read()
    {
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        await PassAsync(rig);
        var file = Path.Combine(rig.Folder, "archive", "madder-lane-2031-03.parquet");
        var bytes = File.ReadAllBytes(file);
        bytes.AsSpan(bytes.Length / 3, 200).Fill(0x5A);
        File.WriteAllBytes(file, bytes);
        File.Delete(Path.Combine(rig.Folder, "archive", "weld-yard-2031-04.parquet"));

        var sentences = rig.Read(reader => reader.Verify());

        Assert.Contains(sentences, sentence => sentence.StartsWith("archive/madder-lane-2031-03.parquet is damaged: ", StringComparison.Ordinal));
        Assert.Contains(sentences, sentence => sentence.StartsWith("archive/weld-yard-2031-04.parquet is not there; wanted ", StringComparison.Ordinal));
        Assert.Throws<StoreUnavailableException>(() => rig.Read(reader => reader.Measurements(Weld, Dusk.AddDays(30), Dusk.AddDays(31)).ToList()));
        Assert.NotEmpty(rig.Read(reader => reader.Measurements(Madder, Dusk.AddDays(30), Dusk.AddDays(31)).ToList()));
    }

    [Fact]
    public async Task Readings_whose_label_was_not_trusted_stay_in_the_database()
    {
        await using var rig = Start();
        List<Measurement> wrong = [.. Enumerable.Range(0, 10).Select(n => Reading(-2e9 + n, monotonicSeconds: n) is var m ? m with { Stamp = m.Stamp with { UtcTrusted = false } } : m)];
        await rig.OfferAsync(wrong);
        Assert.Equal(0, await PassAsync(rig));
        Assert.Equal(wrong, rig.All());
    }

    [Fact]
    public async Task A_file_past_its_age_goes_one_a_pass_and_none_in_the_first_day()
    {
        var io = new FakeTimeProvider();
        await using var rig = Start();
        await rig.OfferAsync(SixtyDays());
        await Archiver(rig).RunOnceAsync(Later.AddYears(2), TestContext.Current.CancellationToken);
        var archiver = Archiver(rig, io: io);
        await archiver.RunOnceAsync(Later.AddYears(20), TestContext.Current.CancellationToken);
        Assert.Equal(6, Files(rig).Length);

        io.Advance(TimeSpan.FromDays(1.1));
        await archiver.RunOnceAsync(Later.AddYears(20), TestContext.Current.CancellationToken);
        Assert.Equal(5, Files(rig).Length);
        Assert.DoesNotContain("madder-lane-2031-03.parquet", Files(rig));
        Assert.Empty(rig.Read(reader => reader.Verify()));
    }
}
