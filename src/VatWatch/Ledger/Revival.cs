using VatWatch.Science.Dosing;
using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger;

/// <summary>What is known of a weak vat. Immutable.</summary>
/// <param name="Facts">Its log book.</param>
/// <param name="Now">Now, UTC.</param>
/// <param name="TemperatureC">The liquor, °C; null when it is not measured well.</param>
/// <param name="Ph">Its pH; null when it is not measured well.</param>
/// <param name="OrpMillivolts">Its ORP against the vat's reference; null when it is not measured well.</param>
/// <param name="Doubt">Why an electrode is not to be believed, as a clause; null when nothing speaks against it.</param>
public sealed record WeakVat(LedgerFacts Facts, DateTimeOffset Now, double? TemperatureC, double? Ph, double? OrpMillivolts, string? Doubt);

/// <summary>Why a vat dyes weakly, what would tell, and what to do, in order. Immutable.</summary>
/// <param name="Causes">The causes with their shares of belief, together 1, the likeliest first.</param>
/// <param name="Seen">What speaks for it, as clauses.</param>
/// <param name="Ask">The one thing that would tell the causes apart best; null when nothing would.</param>
/// <param name="Steps">What to do, in order.</param>
/// <param name="Refused">Why nothing is advised, as a sentence; null when something is.</param>
public sealed record Revival(
    IReadOnlyList<(VatCause Cause, double Share)> Causes, IReadOnlyList<string> Seen, string? Ask, IReadOnlyList<string> Steps, string? Refused)
{
    /// <summary>A sign or strip that is older says nothing of now.</summary>
    private static readonly TimeSpan Fresh = TimeSpan.FromHours(12);

    /// <summary>A sign within this time after an addition says whether it helped.</summary>
    private static readonly TimeSpan Helped = TimeSpan.FromHours(24);

    /// <summary>Probes are averaged over so long before an addition and after its wait.</summary>
    private static readonly TimeSpan Quarter = TimeSpan.FromMinutes(15);

    /// <summary>Share of each cause before anything is known (common practice, no source), and the past revivals that it weighs as much as.</summary>
    private static readonly double[] Usual = [0.1, 0.2, 0.35, 0.15, 0.1, 0.1];
    private const double UsualWeight = 5;

    /// <summary>No dose is advised in a hotter liquor, in °C, or below this pH, where sulfite gives off sulfur dioxide (safety reference).</summary>
    private const double HottestC = 60;
    private const double LeastPh = 8;

    private const double StripTolerance = 0.6;
    private const double SpentGramsPerLitre = 0.5;
    private const double SpentReducerGramsPerLitre = 0.05;

    /// <summary>A question that is expected to tell less than this is not asked, in bits.</summary>
    private const double LeastBits = 0.03;

    /// <summary>Works it out.</summary>
    public static Revival Of(WeakVat vat)
    {
        if (Refusal(vat) is { } refused)
        {
            return new([], [], null, [], refused);
        }

        var belief = Prior(vat.Facts, vat.Now);
        var balance = VatLedger.At(vat.Facts, vat.Now);
        var (seen, open) = (new List<string>(), new List<Clue>());
        foreach (var (clue, outcome) in Clues(vat, balance))
        {
            if (outcome is { } index)
            {
                belief = After(belief, clue.Outcomes[index]);
                seen.Add($"{clue.Name}: {clue.Outcomes[index].Words}");
            }
            else if (clue.Ask is not null)
            {
                open.Add(clue);
            }
        }

        var causes = belief.Select((share, index) => ((VatCause)index, share)).OrderByDescending(one => one.share).ToList();
        var ask = open.Select(clue => (clue, Bits: Tells(belief, clue))).Where(one => one.Bits >= LeastBits).OrderByDescending(one => one.Bits).Select(one => one.clue.Ask).FirstOrDefault();
        return new(causes, seen, ask, RevivalSteps.For(vat, balance, causes), null);
    }

    private static string? Refusal(WeakVat vat)
    {
        var (definition, units) = (vat.Facts.Vat, vat.Facts.Units);
        var hottest = Math.Min(HottestC, definition.Temperature.LimitC);
        return vat switch
        {
            { Doubt: { } doubt } => $"Nothing is advised for {definition.Name}, because {doubt}; put that right first, since every dose would rest on it.",
            { TemperatureC: { } warm } when warm >= hottest =>
                $"{definition.Name} is at {units.Temperature(warm)}, which is too hot: unplug the heater, air the room, and ask again below {units.Temperature(hottest)}.",
            { Ph: < LeastPh and var ph } =>
                $"The pH of {definition.Name} is {ph:0.0}, below {LeastPh:0}: with sulfite in it the liquor may give off sulfur dioxide. Add nothing, keep your face away, air the room, and check the electrode and what went in last.",
            _ => null,
        };
    }

    /// <summary>What helped this vat before: additions after which pH or ORP went the right way, or, where no probe tells, the next sign was a good one.</summary>
    private static double[] Prior(LedgerFacts facts, DateTimeOffset now)
    {
        var counts = Usual.Select(share => share * UsualWeight).ToArray();
        SessionEntry? sign = null;
        foreach (var entry in facts.Standing(now).Reverse())
        {
            if (entry.Kind == EntryKind.Sign)
            {
                sign = entry;
            }
            else if (Mends(entry) is { } cause && (ProbesSay(facts, entry, cause) ?? (sign is { } seen && seen.At.Utc - entry.At.Utc <= Helped && seen.Sign is Sign.Flower or Sign.Sheen or Sign.Yellow)))
            {
                counts[(int)cause]++;
            }
        }

        return [.. counts.Select(count => count / counts.Sum())];
    }

    /// <summary>Whether what the addition is for went the right way; null where no probe tells.</summary>
    private static bool? ProbesSay(LedgerFacts facts, SessionEntry entry, VatCause cause)
    {
        (Quantity? quantity, DoseWait wait, double least) = cause switch
        {
            VatCause.Alkali => ((Quantity?)Quantity.Ph, DoseWait.ForAlkali, 0.1),
            VatCause.ReducingAgent => ((Quantity?)Quantity.Orp, DoseWait.ForReducer, -10.0),
            _ => ((Quantity?)null, default(DoseWait), 0.0),
        };
        var (at, then) = (entry.At.Utc, entry.At.Utc.AddMinutes(wait.LeastMinutes));
        return quantity is { } measured && (facts.Mean(measured, at - Quarter, at), facts.Mean(measured, then, then + Quarter)) is ({ } before, { } after)
            ? (after - before) / least >= 1
            : null;
    }

    private static VatCause? Mends(SessionEntry entry) => entry is not { Kind: EntryKind.Added, Material: { } material } ? null : material switch
    {
        Material.SodaAsh or Material.WashingSoda or Material.Lye or Material.Lime => VatCause.Alkali,
        Material.ReducingAgent => VatCause.ReducingAgent,
        Material.Stock or Material.Indigo => VatCause.DyeSpent,
        _ => null,
    };

    /// <summary>Every clue with the outcome that was seen; null for one that is not known.</summary>
    private static IEnumerable<(Clue Clue, int? Outcome)> Clues(WeakVat vat, VatBalance balance)
    {
        var definition = vat.Facts.Vat;
        yield return (Clue.Warmth, vat.TemperatureC is { } warm ? warm < definition.Temperature.LowC ? 0 : 1 : null);
        yield return (Clue.Ph, (vat.Ph, definition.Ph) is ({ } ph, { } band) ? ph < band.Low ? 0 : ph <= band.High ? 1 : 2 : null);
        yield return (Clue.Redox, (vat.OrpMillivolts, definition.Orp) is ({ } orp, { } limits) ? orp <= limits.WeakMillivolts ? 0 : orp <= limits.OxidisedMillivolts ? 1 : 2 : null);
        yield return (Clue.Dye, balance.Indigo.High / balance.Liquor.Value < SpentGramsPerLitre ? 0 : balance.Indigo.Low / balance.Liquor.Value > SpentGramsPerLitre ? 1 : null);
        yield return (Clue.Agent, vat.Facts.Reducer is null ? null
            : balance.Reducer.High / balance.Liquor.Value < 4 * SpentReducerGramsPerLitre ? 0
            : balance.Reducer.Low / balance.Liquor.Value > SpentReducerGramsPerLitre ? 1 : null);
        var recent = vat.Facts.Standing(vat.Now).Where(entry => vat.Now - entry.At.Utc <= Fresh).Reverse().ToList();
        foreach (var clue in Clue.Asked)
        {
            yield return (clue, recent.Where(entry => entry.Kind == EntryKind.Sign).Select(entry => Index(clue, entry.Sign)).FirstOrDefault(index => index is not null));
        }

        if (vat.Ph is { } electrode)
        {
            yield return (Clue.Strip, recent.FirstOrDefault(entry => entry is { Kind: EntryKind.Reading, Reading: HandReading.Ph })?.Amount is { } strip
                ? Math.Abs(strip - electrode) <= StripTolerance ? 0 : 1
                : null);
        }
    }

    private static int? Index(Clue clue, Sign? sign)
    {
        for (var index = 0; index < clue.Outcomes.Count; index++)
        {
            if (sign is not null && clue.Outcomes[index].Sign == sign)
            {
                return index;
            }
        }

        return null;
    }

    /// <summary>Bayes' rule.</summary>
    private static double[] After(double[] belief, Outcome outcome)
    {
        var joint = belief.Select((share, cause) => share * outcome.Likelihoods[cause]).ToArray();
        return [.. joint.Select(share => share / joint.Sum())];
    }

    /// <summary>How many bits of doubt an answer is expected to take away (Shannon's mutual information).</summary>
    private static double Tells(double[] belief, Clue clue) => Doubt(belief) - clue.Outcomes.Sum(outcome =>
        belief.Select((share, cause) => share * outcome.Likelihoods[cause]).Sum() * Doubt(After(belief, outcome)));

    private static double Doubt(double[] belief) => -belief.Where(share => share > 0).Sum(share => share * Math.Log2(share));
}
