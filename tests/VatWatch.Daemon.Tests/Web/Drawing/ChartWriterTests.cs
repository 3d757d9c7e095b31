using System.Text.Json;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Tests.Web.Drawing;

public sealed class ChartWriterTests
{
    private static readonly DateTimeOffset Start = Scenes.Start.AddHours(-1);

    [Fact]
    public void Columns_come_in_the_dyers_units_with_breaks_bands_marks_and_words()
    {
        var live = new Scenes().Ready().Feed.Vats![0];
        var traces = new VatTraces(
            Start,
            Scenes.Start,
            [new(Scenes.Vat().Probes[0], [Column(0, 40, 41, 39.5, 42), Column(30, 45, 45, 45, 45) with { BreakBefore = true }])],
            [
                new(Start.AddMinutes(5), null, ChartMarkKind.DipIn, "I", "yarn in, by Ada"),
                new(Start.AddMinutes(9), Start.AddMinutes(12), ChartMarkKind.Alarm, "!", "high alarm redox-rising: <b>ORP</b> rises."),
            ]);

        var reply = new ChartWriter(live, DisplayUnits.Us, new LocalClock(TimeZoneInfo.Utc, live.Condition.Stamp)).Write(traces);

        using var json = JsonSerializer.SerializeToDocument(reply, ApiJson.Default.ChartReply);
        var trace = json.RootElement.GetProperty("traces")[0];
        Assert.Equal("°F", trace.GetProperty("unit").GetString());
        Assert.Equal([104, 113, 113.36], trace.GetProperty("first").EnumerateArray().Select(one => one.GetDouble()));
        Assert.Equal([103.1, 113, 113.36], trace.GetProperty("min").EnumerateArray().Select(one => one.GetDouble()));
        Assert.Equal([1], trace.GetProperty("breaks").EnumerateArray().Select(one => one.GetInt32()));
        Assert.Equal(Scenes.Start.AddSeconds(-3).ToUnixTimeMilliseconds(), trace.GetProperty("start")[2].GetInt64());
        Assert.Equal(Start.ToUnixTimeMilliseconds(), trace.GetProperty("start")[0].GetInt64());
        Assert.Equal(60_000, trace.GetProperty("width").GetInt64());
        Assert.Equal(["temperature", "ph", "orp"], json.RootElement.GetProperty("bands").EnumerateArray().Select(one => one.GetProperty("measures").GetString()));
        Assert.Equal(120.2, json.RootElement.GetProperty("bands")[0].GetProperty("limit").GetDouble(), 1e-9);
        Assert.Equal(["dip-in", "alarm"], json.RootElement.GetProperty("marks").EnumerateArray().Select(one => one.GetProperty("kind").GetString()));
        Assert.Equal("02:25: yarn in, by Ada", json.RootElement.GetProperty("marks")[0].GetProperty("text").GetString());
        Assert.Equal("02:20 to 03:20: Liquor 103.1 °F to 113.0 °F, 113.0 °F at the end, broken once. 1 alarm, 1 dip.", json.RootElement.GetProperty("summary").GetString());
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("forecast").ValueKind);
    }

    private static Store.Series.MeasurementColumn Column(int minute, double first, double last, double min, double max) =>
        new(Start.AddMinutes(minute), Start.AddMinutes(minute + 1), first, last, min, max, (min + max) / 2, 12, Quality.Good, false);
}
