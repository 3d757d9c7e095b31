using VatWatch.Ledger;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Ledger.Doses;

/// <summary>A log book of a vat of 100 L whose probes answer each dose by a rule.</summary>
internal sealed class AnsweringVat
{
    private readonly List<(double Hour, double Ph, double Orp)> _steps = [(0, 9.2, -630)];

    public LogBook Book { get; } = new()
    {
        Vat = new LogBook().Vat with { Ph = new PhBand(9.6, 10.4), Orp = new OrpLimits(-640, -570, "Ag/AgCl 3 M KCl", 20) },
    };

    public LedgerFacts Facts => Of(Book.Entries);

    public LedgerFacts Of(IReadOnlyCollection<SessionEntry> entries) => Book.Of(entries) with { Mean = Mean };

    /// <summary>Grams go in, and the pH or the ORP moves at once.</summary>
    public AnsweringVat Dose(double hour, Material material, double grams, double moves)
    {
        Book.Added(hour, material, grams);
        var (_, ph, orp) = _steps[^1];
        _steps.Add((hour, material == Material.ReducingAgent ? ph : ph + moves, material == Material.ReducingAgent ? orp + moves : orp));
        return this;
    }

    /// <summary>The vat has worked; its pH and ORP are these again.</summary>
    public AnsweringVat Worked(double hour, double ph, double orp)
    {
        _steps.Add((hour, ph, orp));
        return this;
    }

    public WeakVat At(double hour) => new(Facts, LogBook.Begin.AddHours(hour), 45, _steps[^1].Ph, _steps[^1].Orp, null);

    public VatBalance Balance(double hour) => VatLedger.At(Facts, LogBook.Begin.AddHours(hour));

    private double? Mean(Quantity quantity, DateTimeOffset from, DateTimeOffset to)
    {
        var step = _steps.Last(one => one.Hour <= (from - LogBook.Begin).TotalHours + 1e-9);
        return quantity switch
        {
            Quantity.Temperature => 45,
            Quantity.Ph => step.Ph,
            Quantity.Orp => step.Orp,
            _ => null,
        };
    }
}
