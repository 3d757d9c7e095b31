using VatWatch.Probes;
using VatWatch.Probes.Gpio;
using VatWatch.Probes.I2c.TextBoard;
using VatWatch.Probes.Kernel;
using VatWatch.Testing.Registers;
using VatWatch.Tests.Probes.I2c;

namespace VatWatch.Tests.HardwareNotes;

/// <summary>Captures of the notes that are no registers: answers of electrode boards, files of the kernel, looks at a line.</summary>
public sealed class ValueCaptureTests
{
    [Fact]
    public async Task Every_answer_of_an_electrode_board_is_what_the_notes_say()
    {
        foreach (var row in Rows("i2c-text", "answers.txt"))
        {
            var verdict = Array.FindIndex(row, word => word is "good" or "fault");
            await using var rig = new I2cRig();
            rig.Bench.With(0x63, new TextBoardRegisters { ForcedAnswer = [.. row[..verdict].Select(word => Convert.ToByte(word, 16))] });
            var probe = await rig.OpenAsync(new TextBoardDriver(), """{ "address": "0x63", "ask": "R", "wait": "10 ms", "unit": "pH" }""", Quantity.Ph);
            var sample = await probe.TakeSampleAsync(I2cRig.Stop);
            var wanted = string.Join(' ', row[(verdict + 1)..]);
            if (row[verdict] == "good")
            {
                Assert.Equal(Sample.Good(CapturedBytes.Number(wanted)), sample);
            }
            else
            {
                Assert.Contains(wanted, sample.Reason, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public async Task Every_file_of_the_kernel_gives_the_value_of_the_notes()
    {
        foreach (var row in Rows("kernel-values", "files.txt"))
        {
            var folder = Directory.CreateTempSubdirectory("vatwatch-captures-").FullName;
            await File.WriteAllTextAsync(Path.Combine(folder, row[0]), row[1], I2cRig.Stop);
            foreach (var beside in row[2..^2].Where(word => word.Contains('=', StringComparison.Ordinal)).Select(word => word.Split('=')))
            {
                await File.WriteAllTextAsync(Path.Combine(folder, beside[0]), beside[1], I2cRig.Stop);
            }

            var measures = row[^1] switch { "°C" => Quantity.Temperature, "W" => Quantity.Heater, _ => Quantity.Orp };
            await using var bus = new KernelBusKind().Read(new BusId("files"), I2cRig.Node("{}", out _)).Create(new WatchClock(TimeProvider.System));
            var probe = I2cRig.Make(new KernelFileDriver(), $$"""{ "file": "{{folder}}/{{row[0]}}" }""", measures, bus);
            await bus.OpenAsync(I2cRig.Stop);
            Assert.Equal(CapturedBytes.Number(row[^2]), (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 1e-9);
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Every_row_of_looks_means_what_the_notes_say()
    {
        foreach (var row in Rows("contacts", "looks.txt"))
        {
            using var chip = new FakeGpioLines();
            row[..5].ToList().ForEach(look => chip.Looks.Enqueue(look == "1"));
            await using var bus = new GpioBusKind { Open = _ => chip }.Read(new BusId("pi"), I2cRig.Node("{}", out _)).Create(new WatchClock(TimeProvider.System));
            var probe = I2cRig.Make(new ContactDriver(), """{ "line": 17 }""", Quantity.Level, bus);
            await bus.OpenAsync(I2cRig.Stop);
            Assert.Equal(row[5] switch { "on," => 100, "off," => 0, _ => (double?)null }, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
        }
    }

    /// <summary>The words of each row that is no remark.</summary>
    private static IEnumerable<string[]> Rows(string family, string file) => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "captures", family, "captures", file))
        .Where(line => line.Length > 0 && !line.StartsWith('#')).Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries));
}
