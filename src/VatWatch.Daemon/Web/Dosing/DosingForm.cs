using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Ledger.Doses;
using VatWatch.Ledger;
using VatWatch.Pipeline;
using VatWatch.Science.Dosing;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web.Dosing;

/// <summary>Fills the dosing form from the live vat and the log book, and asks the calculators. Pure.</summary>
internal static class DosingForm
{
    /// <summary>Readings older than this are not filled in.</summary>
    private static readonly TimeSpan Fresh = TimeSpan.FromMinutes(5);

    /// <summary>The pH to aim at in a vat without a band; any fibre stands it.</summary>
    private const double UsualPh = 10;

    private static readonly string[] Names =
        ["volume", "temperature", "ph", "target", "alkalinity", "soda-ash-so-far", "fibre", "kind", "orp", "orp-target", "dye", "dye-strength", "clear-oxygen", "excess"];

    /// <summary>The page.</summary>
    /// <param name="query">What the form sent; empty when the page is opened.</param>
    /// <param name="entries">Entries of the log book of the last days.</param>
    /// <param name="dosed">The vat by its probes and its log book; null where the store could not be read or nothing is asked.</param>
    /// <param name="now">Now, by the vat's clock.</param>
    public static DosingView Fill(LiveVat live, IQueryCollection query, IReadOnlyList<SessionEntry> entries, DosedVat? dosed, Stamp now, DisplayUnits units)
    {
        var what = query["what"] == DosingView.Reducer ? DosingView.Reducer : DosingView.Alkali;
        var isAsked = query.ContainsKey("volume");
        var fields = isAsked
            ? Names.ToDictionary(name => name, name => EntryFields.Line(query[name]) ?? "", StringComparer.Ordinal)
            : FromLife(live, now, units);
        var view = new DosingView
        {
            Vat = live.Definition,
            What = what,
            Fields = fields,
            IsFromLife = !isAsked,
            Additions = [.. entries.Where(entry => entry is { Withdrawn: null, Kind: EntryKind.Added }).Reverse().Take(6)],
        };
        return isAsked ? Asked(view, dosed, units) : view;
    }

    private static Dictionary<string, string> FromLife(LiveVat live, Stamp now, DisplayUnits units)
    {
        var (vat, condition) = (live.Definition, live.Condition);
        var isFresh = now.Since(condition.Stamp) <= Fresh;
        return new(StringComparer.Ordinal)
        {
            ["volume"] = units.Volume(vat.VolumeLitres),
            ["temperature"] = isFresh && condition.TemperatureC is { } celsius ? units.Temperature(celsius) : "",
            ["ph"] = isFresh && condition.Ph is { } ph ? ph.ToString("0.00") : "",
            ["target"] = (VatDose.UsualPh(vat) ?? UsualPh).ToString("0.0#"),
            ["orp"] = isFresh && condition.OrpMillivolts is { } orp ? $"{orp:0} mV" : "",
            ["fibre"] = vat.Fibre.Word(),
            ["kind"] = (LedgerFacts.Empty(vat, units).Reducer ?? ReducerKind.ThioureaDioxide).Name,
        };
    }

    /// <summary>A dose as a scale shows it, in the dyer's unit.</summary>
    public static string Weighed(double grams, DisplayUnits units) => units.IsUs
        ? $"{(grams / DisplayUnits.GramsPerOunce).ToString("0.##")} oz"
        : $"{grams.ToString(grams < 10 ? "0.0" : "0")} g";

    private static DosingView Asked(DosingView view, DosedVat? dosed, DisplayUnits units)
    {
        var figures = new DoseFigures();
        string Named(string name) => Titles.GetValueOrDefault(name, name);
        string? Said(string name, string unit = "") => view[name] is { Length: > 0 } text ? DyersQuantity.WithUnit(text, unit) : null;
        string Wanted(string name, string unit) => Said(name, unit) ?? "";

        var (volume, temperature) = (Wanted("volume", units.VolumeUnit()), Wanted("temperature", units.TemperatureUnit));
        void FitsVat(double litres)
        {
            var most = SessionRules.MostFill * view.Vat.VolumeLitres;
            if (litres > most)
            {
                figures.Fault(Named("volume"), view["volume"], $"at most {units.Volume(most)}, since {view.Vat.Name} is configured with {units.Volume(view.Vat.VolumeLitres)}");
            }
        }

        DoseAnswer answer;
        if (view.What == DosingView.Alkali)
        {
            var request = new AlkaliAsked(
                volume, temperature, view["ph"], view["target"], Said("alkalinity", "meq/L"), Said("soda-ash-so-far", units.MassUnit()), Said("fibre")).Read(figures, Named, dosed?.Balance);
            answer = AlkaliDosing.Answer(request);
            FitsVat(request.VolumeL);
        }
        else if (dosed is not null && view["dye"].Length == 0)
        {
            answer = new SharpeningAsked(view["kind"], volume, temperature, Said("orp", "mV"), Said("orp-target", "mV")).Answer(dosed.Now, dosed.Balance, figures, Named);
            FitsVat(QuantityKind.Volume.TryParse(Typed.Quantity(volume), out var litres) ? litres : 0);
        }
        else
        {
            var request = new ReducerAsked(
                view["kind"], volume, temperature, Wanted("dye", units.MassUnit()), Said("dye-strength", "%"), view["clear-oxygen"] == "yes", Blank(view["excess"])).Read(figures, Named);
            answer = ReducerDosing.Answer(request);
            FitsVat(request.VolumeL);
        }

        return view with { Faults = figures.Faults, Answer = figures.Faults.Count == 0 ? answer : null };
    }

    private static string? Blank(string text) => text.Length > 0 ? text : null;

    private static readonly Dictionary<string, string> Titles = new(StringComparer.Ordinal)
    {
        ["volume"] = "Liquor in the vat",
        ["temperature"] = "Its temperature",
        ["ph"] = "pH now",
        ["target"] = "Wanted pH",
        ["alkalinity"] = "Alkalinity",
        ["soda-ash-so-far"] = "Soda ash so far",
        ["fibre"] = "Fibre",
        ["kind"] = "Reducing agent",
        ["orp"] = "ORP now",
        ["orp-target"] = "Wanted ORP",
        ["dye"] = "Dye",
        ["dye-strength"] = "Strength of the dye",
        ["excess"] = "Times theory",
    };
}
