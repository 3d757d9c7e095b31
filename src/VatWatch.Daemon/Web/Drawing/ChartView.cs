namespace VatWatch.Daemon.Web.Drawing;

/// <summary>The chart of a vat as its page shows it.</summary>
public sealed record ChartView
{
    private const string FieldForm = "yyyy-MM-dd'T'HH:mm";

    /// <summary>The stretch that is shown.</summary>
    public required ChartRange Range { get; init; }

    /// <summary>Whether something else was asked for that could not be read.</summary>
    public required bool IsInsteadOfWish { get; init; }

    /// <summary>The drawing in words; null when the store did not give it in time.</summary>
    public required string? Summary { get; init; }

    /// <summary>What happened in it: letter of the mark and words.</summary>
    public required IReadOnlyList<(string Letter, string Text)> Happened { get; init; }

    /// <summary>Zone of the studio, for the date fields.</summary>
    public required TimeZoneInfo Zone { get; init; }

    /// <summary>Its part of an address, for example "hours=8".</summary>
    public string Query => Range switch
    {
        { From: { } from, To: { } to } => $"from={Machine(from)}&to={Machine(to)}",
        { IsSession: true } => "range=session",
        _ => $"hours={Range.Hours}",
    };

    /// <summary>What it is called.</summary>
    public string Title => Range switch
    {
        { From: not null } => "The chosen stretch",
        { IsSession: true } => "The session",
        { Hours: 1 } => "The last hour",
        _ => $"The last {Range.Hours} h",
    };

    /// <summary>A moment as a date field holds it; empty when the stretch is not one of dates.</summary>
    public string Field(DateTimeOffset? moment) =>
        moment is { } utc ? TimeZoneInfo.ConvertTime(utc, Zone).ToString(FieldForm) : "";

    private static string Machine(DateTimeOffset moment) => moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'");
}
