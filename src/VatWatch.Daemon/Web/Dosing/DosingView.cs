using VatWatch.Science.Dosing;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.Dosing;

/// <summary>The dosing page of one vat: the figures in its form, and what they come to.</summary>
public sealed record DosingView
{
    /// <summary>The word in addresses for soda ash.</summary>
    public const string Alkali = "alkali";

    /// <summary>The word in addresses for reducing agent.</summary>
    public const string Reducer = "reducer";

    public required VatDefinition Vat { get; init; }

    /// <summary><see cref="Alkali"/> or <see cref="Reducer"/>.</summary>
    public required string What { get; init; }

    /// <summary>What stands in each field.</summary>
    public required IReadOnlyDictionary<string, string> Fields { get; init; }

    /// <summary>Whether the fields hold live values, and not what somebody wrote.</summary>
    public required bool IsFromLife { get; init; }

    /// <summary>What could not be read, a sentence each.</summary>
    public IReadOnlyList<string> Faults { get; init; } = [];

    /// <summary>What the figures come to; null before somebody asked.</summary>
    public DoseAnswer? Answer { get; init; }

    /// <summary>Soda ash that the log book knows of.</summary>
    public SodaAshLog? SodaAsh { get; init; }

    /// <summary>The newest additions to the vat, newest first.</summary>
    public IReadOnlyList<SessionEntry> Additions { get; init; } = [];

    /// <summary>What is logged in one tap.</summary>
    public Material Material => What == Alkali ? Material.SodaAsh : Material.ReducingAgent;

    /// <summary>Until when a portion just given should be left to work, UTC; null when none is.</summary>
    public DateTimeOffset? WaitUntil(DateTimeOffset now)
    {
        var wait = TimeSpan.FromMinutes((What == Alkali ? DoseWait.ForAlkali : DoseWait.ForReducer).LeastMinutes);
        var until = Additions.Where(entry => entry.Material == Material).Select(entry => entry.At.Utc + wait).DefaultIfEmpty().Max();
        return until > now ? until : null;
    }

    /// <summary>What stands in a field; empty for nothing.</summary>
    public string this[string field] => Fields.GetValueOrDefault(field) ?? "";
}
