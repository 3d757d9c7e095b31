using VatWatch.Daemon.Plans;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>Takes the forms of the page of plans and goes back to it. None of them switches anything.</summary>
internal sealed class PlanForms(FormGate gate, PlanService plans, SessionService sessions, StoreQueries store, ILiveFeed feed, SiteFacts site)
{
    private const string NotKept = "Not kept";

    public const string CheckField = "check";

    public const string DayField = "day";

    private TimeZoneInfo Zone => feed.Clock.Zone;

    public static void Map(IEndpointRouteBuilder routes)
    {
        var plan = routes.MapGroup("/vats/{vat}/plan").ExcludeFromDescription();
        plan.MapPost("/warm", (string vat, HttpContext context, [Service] PlanForms forms) => forms.ActAsync(context, (form, by) => forms.KeepWarmAsync(new(vat), form, by)));
        plan.MapPost("/put-off", (string vat, HttpContext context, [Service] PlanForms forms, [Service] PlanService plans) => forms.ActAsync(context, (_, _) => plans.PutOffAsync(new(vat), CancellationToken.None)));
        plan.MapPost("/drop", (string vat, HttpContext context, [Service] PlanForms forms, [Service] PlanService plans) => forms.ActAsync(context, (_, _) => plans.KeepAsync(new(vat), (KeptWarmPlan?)null, CancellationToken.None)));
        plan.MapPost("/heater-on", (string vat, HttpContext context, [Service] PlanForms forms) => forms.ActAsync(context, (form, by) => forms.HeaterOnAsync(new(vat), form, by)));
        plan.MapPost("/day", (string vat, HttpContext context, [Service] PlanForms forms) => forms.ActAsync(context, (form, _) => forms.KeepDayAsync(new(vat), form, context.RequestAborted)));
    }

    private async Task<string?> KeepWarmAsync(VatId vat, IFormCollection form, string by)
    {
        if (feed.Find(vat.Value)?.Definition is not { } definition)
        {
            return "There is no such vat.";
        }

        if (PlanClock.Time(form["ready"]) is not { } ready || PlanFields.Temperature(form["at"], site.Units) is not { } targetC || targetC >= definition.Temperature.LimitC)
        {
            return $"The wish cannot be kept; wanted a time such as 09:00 and a warmth below the limit of {site.Units.Temperature(definition.Temperature.LimitC)}.";
        }

        var figures = new DoseFigures();
        var watts = PlanFields.Watts(form["heater"], figures);
        if (figures.Faults.Count > 0)
        {
            return string.Join(" ", figures.Faults);
        }

        var days = PlanFields.Days(form[DayField]);
        var next = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(WallTime.Next(ready, feed.Clock.Now().Utc, Zone), Zone).DateTime);
        return await plans.KeepAsync(vat, new KeptWarmPlan(ready, targetC, days, days.Count == 0 ? next : null, by) { HeaterWatts = watts }, CancellationToken.None);
    }

    /// <summary>Enters that the heater is on, with what was looked at before, which is what the log book keeps of the list.</summary>
    private async Task<string?> HeaterOnAsync(VatId vat, IFormCollection form, string by)
    {
        if (PlanClock.Time(form["ready"]) is not { } ready)
        {
            return "The form does not say by when the vat should be warm.";
        }

        var ticked = form[CheckField].ToHashSet();
        var all = NightList.Of(1, site.Units).Select(check => check.Word).ToList();
        var missing = all.Where(word => !ticked.Contains(word)).ToList();
        var words = (all.Count - missing.Count, missing.Count) switch
        {
            (_, 0) => $"list of the night: all {all.Count} points looked at",
            (0, _) => "list of the night: none of the points looked at",
            _ => $"list of the night: looked at {string.Join(", ", all.Except(missing))}; not at {string.Join(", ", missing)}",
        };
        return (await sessions.WriteAsync(new EntryDraft(vat, EntryKind.HeaterOn, by) { ReadyAt = ready, Text = words }, CancellationToken.None)).Refused;
    }

    private async Task<string?> KeepDayAsync(VatId vat, IFormCollection form, CancellationToken cancel)
    {
        if (feed.Find(vat.Value) is not { } live)
        {
            return "There is no such vat.";
        }

        var (figures, now) = (new DoseFigures(), feed.Clock.Now().Utc);
        var (_, kept) = await store.TryReadAsync(reader => PlanKept.ReadAll(reader, live.Definition, now, Zone), cancel);
        var known = PlanFields.Known(live, kept);
        var lines = PlanFields.Lines(form["goods"]);
        var reply = PlanFields.Day(name => form[name], lines)
            .Answer(live.Definition, known, kept?.Contents, figures, PlanFields.Label, now, Zone, site.Units);
        return figures.Faults.Count > 0 ? string.Join(" ", figures.Faults)
            : reply.Plan is not { } plan ? reply.Refused
            : await plans.KeepAsync(vat, new KeptDayPlan(lines, plan), CancellationToken.None);
    }

    private async Task ActAsync(HttpContext context, Func<IFormCollection, string, Task<string?>> act)
    {
        if (await gate.OpenAsync(context, NotKept) is not { } form || await gate.NameAsync(context, form, NotKept) is not { } by)
        {
            return;
        }

        if (await act(form, by) is { } why)
        {
            await gate.RefuseAsync(context, NotKept, why, form: form);
        }
        else
        {
            FormGate.Return(context, form);
        }
    }
}
