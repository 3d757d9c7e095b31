using System.CommandLine;
using System.Text.Json;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Plans;
using VatWatch.Daemon.Verbs.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Verbs.Plan;

/// <summary><c>vatwatch plan warm</c>: when to switch a heater on so that a vat is warm at an hour.</summary>
internal static class PlanWarmVerb
{
    public static Command Create(VerbConsole console)
    {
        var ready = new Option<string>("--ready") { Description = "Time of day at which it is to be warm, such as 09:00; the next that comes.", HelpName = "TIME", Required = true };
        var at = new Option<string?>("--at") { Description = "How warm, such as \"45 °C\"; the middle of its band when not said.", HelpName = "TEMPERATURE" };
        var room = new Option<string?>("--room") { Description = "The room by night, such as \"16 °C\"; from the store when not said.", HelpName = "TEMPERATURE" };
        var options = new PlanOptions("The liquor now, such as \"18 °C\"; from the store when not said.");
        return options.Command(
            "warm",
            "Say when to switch the heater on, when off, and what it costs.",
            [ready, at, room],
            (parsed, found) => Run(
                new(parsed.GetValue(ready), parsed.GetValue(at), parsed.GetValue(options.From), parsed.GetValue(options.Heater), parsed.GetValue(room)), found, options, parsed, console),
            console);
    }

    private static int Run(WarmAsked asked, PlannedVat found, PlanOptions options, ParseResult parsed, VerbConsole console)
    {
        var (figures, json, now) = (new DoseFigures(), parsed.GetValue(options.Json), TimeProvider.System.GetUtcNow());
        var reply = asked.Answer(found.Vat, found.Known, figures, figure => $"--{figure}", now, found.Zone, found.Units);
        if (DoseWriter.Complain(figures, console) is { } wrong)
        {
            return wrong;
        }

        if (reply.Plan is not { } plan)
        {
            return AdviceWriter.Refuse(reply.Refused!, json, console);
        }

        var text = new WarmText(found.Vat, reply.Heat!, plan, found.Units, found.Zone);
        var watts = found.Vat.HeaterWatts ?? reply.Heat!.PowerW;
        var list = NightList.Of(watts, found.Units).Select(check => check.Sentence).ToList();
        options.WriteCalendar(parsed, new CalendarFile(found.Vat, found.Units, found.Zone, now).Add(plan, text, watts));
        if (json)
        {
            AdviceWriter.WriteJson(console.Out, writer => Write(writer, plan, text, list.Prepend(NightList.Heading), found.Zone));
            return ExitCode.Success;
        }

        console.Out.WriteLine(found.Vat.Name);
        foreach (var (name, value) in text.Lines())
        {
            console.Out.WriteLine($"  {name,-16} {value}");
        }

        AdviceWriter.WriteList("This rests on:", text.Assumptions(), console.Out);
        AdviceWriter.WriteList(NightList.Heading, list, console.Out);
        return ExitCode.Success;
    }

    private static void Write(Utf8JsonWriter writer, WarmPlan plan, WarmText text, IEnumerable<string> cautions, TimeZoneInfo zone)
    {
        Time("switchOn", plan.SwitchOn);
        Time("switchOff", plan.SwitchOff);
        Time("ready", plan.Wish.Ready);
        Time("readyEarly", plan.ReadyEarly);
        Time("readyLate", plan.ReadyLate);
        Time("earliest", plan.Earliest);
        Time("latestSafe", plan.LatestSafe);
        if (plan.SetToC is { } set)
        {
            writer.WriteNumber("setToC", Math.Round(set, 1));
        }

        Time("limitEarly", plan.LimitEarly);
        writer.WriteNumber("kWh", Math.Round(plan.KilowattHours, 2));
        writer.WriteNumber("kWhLow", Math.Round(plan.KilowattHoursLow, 2));
        writer.WriteNumber("kWhHigh", Math.Round(plan.KilowattHoursHigh, 2));
        AdviceWriter.WriteSentences(writer, "assumptions", text.Assumptions());
        AdviceWriter.WriteSentences(writer, "cautions", cautions);

        void Time(string name, DateTimeOffset? at) => AdviceWriter.WriteTime(writer, name, at, zone);
    }
}
