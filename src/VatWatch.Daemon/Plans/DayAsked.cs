using VatWatch.Conditions.Heating;
using VatWatch.Daemon.Dosing;
using VatWatch.Ledger;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Plans;

/// <summary>A day's goods as a person writes them, on a command line or in a form; null where nothing was said.</summary>
internal sealed record DayAsked(IReadOnlyList<string> Goods, string? Start, string? From, string? Heater, string? Dip, string? Airing, string? Recovery)
{
    private const int MostGoods = 20;

    /// <summary>Reads the wish and plans for it; what cannot be read is filed, and then there is neither plan nor refusal.</summary>
    /// <param name="known">What the store or the watch tells of it.</param>
    /// <param name="contents">What is in it by its ledger; null where that could not be read.</param>
    /// <param name="figures">Takes the faults.</param>
    /// <param name="name">What a figure is called where the person wrote it.</param>
    /// <param name="now">UTC.</param>
    public DayReply Answer(VatDefinition vat, StoredVat known, VatBalance? contents, DoseFigures figures, Func<string, string> name, DateTimeOffset now, TimeZoneInfo zone, DisplayUnits units)
    {
        var goods = Read(figures, name("goods"));
        var begins = Start is null ? now
            : PlanClock.Time(Start) is { } time ? WallTime.Next(time, now, zone)
            : now.AddSeconds(figures.Fault(name("start"), Start, "a time of day such as 09:00"));
        var fromC = figures.OptionalWithin(name("from"), From, QuantityKind.Temperature, 0, 100);
        var watts = figures.OptionalWithin(name("heater"), Heater, QuantityKind.Power, 10, 100_000);
        var dip = Length(figures, name("dip"), Dip);
        var airing = Length(figures, name("airing"), Airing);
        var recovery = Length(figures, name("recovery"), Recovery);
        if (figures.Faults.Count > 0)
        {
            return new(null, null, null, null);
        }

        var heat = VatHeat.Of(vat, known.Learned, known.RoomC).At(begins, known.Seen.Room, zone);
        heat = watts is { } told ? heat.WithHeater(told) : heat.Seen(vat, known.Seen.WarmUps);

        // A vat that is not in its band now is taken to be warmed until work begins.
        var liquorC = fromC ?? (known.LiquorC is { } nowC && nowC > vat.Temperature.LowC && nowC <= vat.Temperature.HighC ? nowC : WarmAsked.UsualTarget(vat));
        var length = dip ?? known.Dip ?? DipOutlook.UsualDip;
        var wish = new DayWish(goods, begins, liquorC)
        {
            ColdC = fromC is null && known.LiquorC <= vat.Temperature.LowC ? known.LiquorC : null,
            WhyUnknown = fromC is null && known.LiquorC is null ? known.WhyNoLiquor : null,
            Dip = length,
            DipIsSeen = dip is null && known.Dip is not null,
            Airing = airing ?? length,
            Recovery = recovery ?? known.Recovery ?? DayWish.UsualRecovery,
            RecoveryIsMeasured = recovery is null && known.Recovery is not null,
        };
        var planner = new DayPlanner(vat, heat, units);
        var (plan, refused) = planner.Plan(wish);

        // Additions move the rests in which the next ones are given, so a second look places them.
        for (var look = 0; look < 2 && plan is not null && contents is not null; look++)
        {
            wish = wish with { Additions = DayAdditions.For(vat, contents, plan, liquorC) };
            (plan, refused) = planner.Plan(wish);
        }

        return new(heat, wish, plan, refused);
    }

    private List<Goods> Read(DoseFigures figures, string name)
    {
        var goods = new List<Goods>();
        foreach (var text in Goods)
        {
            if (VatWatch.Plans.Day.Goods.TryParse(text, out var one))
            {
                goods.Add(one);
            }
            else
            {
                figures.Fault(name, text, VatWatch.Plans.Day.Goods.Wanted);
            }
        }

        if (Goods.Count is 0 or > MostGoods)
        {
            figures.Fault(name, $"{Goods.Count} times", $"1 to {MostGoods}");
        }

        return goods;
    }

    private static TimeSpan? Length(DoseFigures figures, string name, string? text) =>
        figures.OptionalWithin(name, text, QuantityKind.Duration, 60, 4 * 3600) is { } seconds ? TimeSpan.FromSeconds(seconds) : null;
}

/// <summary>What became of a wish.</summary>
/// <param name="Heat">What the plan rests on.</param>
/// <param name="Plan">The plan; null when there is none.</param>
/// <param name="Refused">Why there is none, as a sentence; null with a plan, and when the wish could not be read.</param>
internal sealed record DayReply(VatHeat? Heat, DayWish? Wish, DayPlan? Plan, string? Refused);
