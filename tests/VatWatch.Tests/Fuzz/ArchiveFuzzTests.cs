using VatWatch.Store.Archive;
using VatWatch.Testing.Fuzz;
using VatWatch.Tests.Store;
using VatWatch.Tests.Store.Archive;

namespace VatWatch.Tests.Fuzz;

/// <summary>Archive files with bytes changed, lost and doubled.</summary>
public sealed class ArchiveFuzzTests
{
    private const int Few = 400;

    /// <summary>The library sets memory aside, untouched, for whatever length a damaged file names, up to its largest array of 2 GB (6.1.0: 1 of 3,000 mutants). Where there is not so much, the file is refused.</summary>
    private const long MostBytes = 4L * 1024 * 1024 * 1024;

    [Fact]
    public async Task Every_mutated_archive_is_read_or_refused_in_a_clause()
    {
        await using var rig = StoreRig.Start();
        await rig.OfferAsync(ArchiveRig.SixtyDays().Where((_, n) => n % 40 == 0));
        await ArchiveRig.PassAsync(rig);
        var name = ArchiveRig.Files(rig)[0];
        var month = ArchiveMonth.Parse(name)!.Value;
        var sound = File.ReadAllBytes(Path.Combine(rig.Folder, "archive", name));
        var file = Path.Combine(rig.Folder, "mutant.parquet");
        var (read, refused) = (0, 0);

        Cases.Hold(
            Mutants.Of((byte[][])[sound]),
            Few,
            bytes =>
            {
                File.WriteAllBytes(file, bytes);
                try
                {
                    using var archive = ArchiveFile.Open(file, month);
                    archive.Verify();
                    Assert.Equal(archive.Rows, archive.Read(long.MinValue, long.MaxValue, (_, _) => 0).Count());
                    read++;
                }
                catch (InvalidDataException wrong)
                {
                    Assert.NotEmpty(wrong.Message);
                    refused++;
                }
            },
            bytes => $"{bytes.Length} bytes, at the end {Convert.ToHexString(bytes.AsSpan(Math.Max(0, bytes.Length - 12)))}",
            MostBytes);

        TestContext.Current.SendDiagnosticMessage($"{read} read, {refused} refused");
        Assert.True(read > 0 && refused > 0, $"{read} read, {refused} refused");
    }
}
