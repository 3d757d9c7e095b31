using System.Diagnostics.CodeAnalysis;
using System.Text;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Notifications.Mqtt.Commands;

namespace VatWatch.Tests.Notifications.Mqtt;

public sealed class AlarmCommandTests
{
    private const string Good = """{"alarm":"overheat","by":"Ada"}""";

    [Theory]
    [InlineData(Good, "overheat", "Ada")]
    [InlineData("""  { "by" : "Ada Øster" , "alarm" : "probe-silent.liquor" }  """, "probe-silent.liquor", "Ada Øster")]
    [InlineData("""{"alarm":"overheat","by":" A\u0007d\na\u0000 \u001b[31m"}""", "overheat", "Ad a [31m")]
    [InlineData("""{"alarm":"overheat","by":"\u202eadA\u2066\u2028"}""", "overheat", "adA")]
    [InlineData("""{"alarm":"overheat","by":"Ada 🌿"}""", "overheat", "Ada 🌿")]
    public void A_command_is_read_and_its_name_cleaned(string payload, string alarm, string by)
    {
        Assert.True(Parse(payload, out var command, out _));
        Assert.Equal((alarm, by), (command!.Alarm.Value, command.By));
    }

    [Theory]
    [InlineData("", "not JSON")]
    [InlineData("online", "not JSON")]
    [InlineData("[]", "no object")]
    [InlineData("null", "no object")]
    [InlineData("""{"alarm":"overheat"}""", "lacks the field \"by\"")]
    [InlineData("""{"by":"Ada"}""", "lacks the field \"alarm\"")]
    [InlineData("""{"alarm":"overheat","by":"Ada","force":true}""", "unknown field \"force\"")]
    [InlineData("""{"Alarm":"overheat","by":"Ada"}""", "unknown field \"Alarm\"")]
    [InlineData("""{"alarm":"overheat","by":"Ada","by":"Bea"}""", "\"by\" twice")]
    [InlineData("""{"alarm":["overheat"],"by":"Ada"}""", "\"alarm\" is no text")]
    [InlineData("""{"alarm":"overheat","by":null}""", "\"by\" is no text")]
    [InlineData("""{"alarm":"overheat","by":"Ada"} {}""", "not JSON")]
    [InlineData("""{"alarm":"overheat","by":"Ada",}""", "not JSON")]
    [InlineData("""{"alarm":"overheat","by":"Ada"/* seen */}""", "not JSON")]
    [InlineData("""{"alarm":"overheat","by":"Ad""", "not JSON")]
    [InlineData("""{"alarm":"overheat","by":"\ud800"}""", "not JSON")]
    [InlineData("""{"alarm":"overheat","by":"\u0001\u0002  "}""", "0 characters that can be shown; wanted 1 to 60")]
    [InlineData("""{"alarm":"+/#","by":"Ada"}""", "cannot be the name of one")]
    [InlineData("""{"alarm":"../overheat","by":"Ada"}""", "cannot be the name of one")]
    public void A_bad_command_is_told_what_was_seen(string payload, string told)
    {
        Assert.False(Parse(payload, out _, out var fault));
        Assert.Contains(told, fault, StringComparison.Ordinal);
    }

    [Fact]
    public void A_shelving_has_its_time_and_reason()
    {
        Assert.True(Parse("""{"alarm":"overheat","by":"Ada","minutes":12.5,"reason":"probe\u0007 out"}""", out var act, out _, AlarmActKind.Shelve));
        Assert.Equal((TimeSpan.FromMinutes(12.5), "probe out", "mqtt"), (act!.For, act.Text, act.Via));
    }

    [Fact]
    public void A_note_is_about_an_alarm_or_about_the_vat()
    {
        Assert.True(Parse("""{"alarm":"overheat","by":"Ada","text":"lid was shut"}""", out var beside, out _, AlarmActKind.Note));
        Assert.True(Parse("""{"by":"Ada","text":"lid was shut"}""", out var about, out _, AlarmActKind.Note));
        Assert.Equal(("overheat", AlarmName.Note.Value, "lid was shut"), (beside!.Alarm.Value, about!.Alarm.Value, about.Text));
    }

    [Theory]
    [InlineData("""{"alarm":"overheat","by":"Ada"}""", "lacks the field \"minutes\"")]
    [InlineData("""{"alarm":"overheat","by":"Ada","minutes":"20","reason":"x"}""", "\"minutes\" is no number")]
    [InlineData("""{"alarm":"overheat","by":"Ada","minutes":0.5,"reason":"x"}""", "0.5; wanted 1 to 1440 minutes")]
    [InlineData("""{"alarm":"overheat","by":"Ada","minutes":1e999,"reason":"x"}""", "minutes")]
    [InlineData("""{"alarm":"overheat","by":"Ada","minutes":20,"reason":" "}""", "the reason has 0 characters")]
    public void A_bad_shelving_is_told_what_was_seen(string payload, string told)
    {
        Assert.False(Parse(payload, out _, out var fault, AlarmActKind.Shelve));
        Assert.Contains(told, fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(60, true)]
    [InlineData(61, false)]
    public void A_name_has_at_most_60_characters(int length, bool read) =>
        Assert.Equal(read, Parse($$"""{"alarm":"overheat","by":"{{new string('a', length)}}"}""", out _, out _));

    [Fact]
    public void More_than_a_kibibyte_is_not_looked_at()
    {
        Assert.False(Parse(Good + new string(' ', 1024), out _, out var fault));
        Assert.Contains("bytes; wanted at most 1024", fault, StringComparison.Ordinal);
        Assert.True(Parse(Good + new string(' ', 1024 - Good.Length), out _, out _));
    }

    [Fact]
    public void Random_and_damaged_bytes_never_throw_and_never_pass_a_dirty_name()
    {
        var random = new Random(20260301);
        var read = 0;
        for (var i = 0; i < 200_000; i++)
        {
            var bytes = i % 4 == 0 ? RandomBytes(random) : Damaged(random);
            if (TryMake(AlarmActKind.Acknowledge, bytes, out var command, out var fault))
            {
                read++;
                Assert.InRange(command.By.Length, 1, 60);
                Assert.DoesNotContain(command.By, char.IsControl);
                Assert.Matches("^[a-z0-9.-]{1,81}$", command.Alarm.Value);
            }
            else
            {
                Assert.DoesNotContain(fault, char.IsControl);
                Assert.InRange(fault.Length, 1, 200);
            }
        }

        Assert.InRange(read, 1000, 199_000);
    }

    private static byte[] RandomBytes(Random random)
    {
        var bytes = new byte[random.Next(0, 200)];
        random.NextBytes(bytes);
        return bytes;
    }

    private static byte[] Damaged(Random random)
    {
        var bytes = Encoding.UTF8.GetBytes(Good).ToList();
        for (var hits = random.Next(1, 4); hits > 0; hits--)
        {
            var at = random.Next(bytes.Count);
            switch (random.Next(3))
            {
                case 0:
                    bytes[at] = (byte)random.Next(256);
                    break;
                case 1:
                    bytes.RemoveAt(at);
                    break;
                default:
                    bytes.Insert(at, (byte)"\"{}[]:,\\u\0e9"[random.Next(12)]);
                    break;
            }
        }

        return [.. bytes];
    }

    private static bool Parse(string payload, out AlarmAct? command, out string? fault, AlarmActKind kind = AlarmActKind.Acknowledge) =>
        TryMake(kind, Encoding.UTF8.GetBytes(payload), out command, out fault);

    private static bool TryMake(AlarmActKind kind, byte[] payload, [NotNullWhen(true)] out AlarmAct? command, [NotNullWhen(false)] out string? fault)
    {
        command = null;
        return AlarmCommand.TryParse(kind, new("madder-lane"), payload, out var request, out fault) && request.TryMake(out command, out fault);
    }
}
