using VatWatch.Nights.Physics;

namespace VatWatch.Nights.Scenes;

/// <summary>Evenings, nights and days in a row, as a dyer has them.</summary>
internal sealed class Evenings(Studio studio, Chance chance)
{
    private readonly List<NightSpan> _nights = [];
    private readonly bool _watchedByDay = chance.Happens(0.3);

    public IReadOnlyList<NightSpan> Nights => _nights;

    public Studio Studio => studio;

    /// <summary>A studio whose thermostat can hold the vat in its band; null when this heater cannot.</summary>
    public static Evenings? WithThermostat(Chance chance, Func<StudioPlan, StudioPlan> change)
    {
        var plan = change(StudioPlan.Draw(chance));
        var setting = chance.Uniform(plan.Low + 0.5 * (plan.High - plan.Low), plan.High - 0.3);
        if (!plan.CanHold(setting + 1, 0.75))
            return null;
        var studio = new Studio(chance.Fork(), plan);
        studio.Heater.Thermostat = Thermostat.Draw(chance, setting, plan.Body.ElementHeight);
        return new Evenings(studio, chance);
    }

    /// <summary>Switches the heater on, and enters it when this dyer does.</summary>
    public void SwitchOn(bool withWish = true)
    {
        studio.Heater.SwitchedOn = true;
        if (studio.Plan.Enters)
            studio.Enter("heater-on", withWish && chance.Happens(0.7) ? $"ready {studio.Plan.ReadyHour:00}:00" : "");
    }

    public void SwitchOff()
    {
        studio.Heater.SwitchedOn = false;
        if (studio.Plan.Enters)
            studio.Enter("heater-off");
    }

    /// <summary>A whole night that goes well: a while of watching, the heater on and perhaps a stir, until the vat should be ready. False when it was not warm by then.</summary>
    public bool SoundNight()
    {
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 25));
        SwitchOn();
        if (chance.Happens(0.25))
        {
            studio.Pass(chance.Uniform(20, 120));
            studio.Liquor.Stir(chance.Uniform(0.5, 1));
            if (studio.Plan.Enters)
                studio.Enter("stir");
        }

        studio.Pass(studio.MinutesTo(studio.Plan.ReadyHour));
        var warm = studio.Shown >= studio.Plan.Low;
        studio.Pass(chance.Uniform(5, 20));
        SwitchOff();
        Ends(from, healthy: true);
        return warm;
    }

    public void Ends(DateTimeOffset from, bool healthy, DateTimeOffset? offByHand = null) =>
        _nights.Add(new NightSpan(from, studio.Now, _nights.Count, healthy, offByHand));

    /// <summary>The day between two nights: lid off, some yarn perhaps, the vat cools. The watch is on or off.</summary>
    public void Day()
    {
        var left = studio.MinutesTo(studio.Plan.StartHour);
        var work = Math.Min(chance.Uniform(90, 300), left / 2);
        studio.Liquor.LidOn = false;
        for (var dip = chance.OneOf(0, 0, 2, 4); dip > 0 && _watchedByDay; dip--)
        {
            studio.Yarn(studio.Plan.Body.Litres * chance.Uniform(0.01, 0.06), chance.Uniform(0.003, 0.01));
            studio.Pass(12);
            studio.Yarn(null, 0);
            studio.Pass(chance.Uniform(10, 25));
            work -= 30;
        }

        Let(Math.Max(work, 5));
        studio.Liquor.Stir();
        studio.Liquor.LidOn = studio.Plan.Lidded;
        Let(studio.MinutesTo(studio.Plan.StartHour));
    }

    private void Let(double minutes)
    {
        if (_watchedByDay)
            studio.Pass(minutes);
        else
            studio.PassUnwatched(minutes);
    }
}
