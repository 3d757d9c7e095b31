using System.CommandLine;
using System.Text.Json;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Plans;
using VatWatch.Daemon.Verbs.Dosing;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Plans.Day;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Verbs.Plan;

/// <summary><c>vatwatch plan day</c>: how a day's batches go.</summary>
internal static class PlanDayVerb
{
    public static Command Create(VerbConsole console)
    {
        var goods = new Option<string[]>("--goods") { Description = "Dry weight, kind and dips, such as \"2 lb wool x 4 dips\"; once for each kind of goods.", HelpName = "GOODS", Required = true };
        var start = new Option<string?>("--start") { Description = "Time of day of the first dip, such as 09:00; now when not said.", HelpName = "TIME" };
        var dip = new Option<string?>("--dip") { Description = "Time in the liquor, such as \"10 min\".", HelpName = "TIME" };
        var airing = new Option<string?>("--airing") { Description = "Time in the air after it; as long as the dip when not said.", HelpName = "TIME" };
        var recovery = new Option<string?>("--recovery") { Description = "Time for the liquor to clear after a dip, such as \"10 min\".", HelpName = "TIME" };
        var options = new PlanOptions("The liquor then, such as \"45 °C\"; as it is now in its band, else the middle of it.");
        return options.Command(
            "day",
            "Divide goods into loads and say when each dip goes in and comes out, what to add on the way, and when the day ends.",
            [goods, start, dip, airing, recovery],
            (parsed, found) => Run(
                new(parsed.GetValue(goods) ?? [], parsed.GetValue(start), parsed.GetValue(options.From), parsed.GetValue(options.Heater), parsed.GetValue(dip), parsed.GetValue(airing), parsed.GetValue(recovery)),
                found,
                options,
                parsed,
                console),
            console);
    }

    private static int Run(DayAsked asked, PlannedVat found, PlanOptions options, ParseResult parsed, VerbConsole console)
    {
        var (figures, json) = (new DoseFigures(), parsed.GetValue(options.Json));
        var now = TimeProvider.System.GetUtcNow();
        var reply = asked.Answer(found.Vat, found.Known, found.Contents, figures, figure => $"--{figure}", now, found.Zone, found.Units);
        if (DoseWriter.Complain(figures, console) is { } wrong)
        {
            return wrong;
        }

        if (reply.Plan is not { } plan)
        {
            return AdviceWriter.Refuse(reply.Refused!, json, console);
        }

        var text = new DayText(found.Vat, reply.Heat!, reply.Wish!, plan, found.Units, found.Zone);
        options.WriteCalendar(parsed, new CalendarFile(found.Vat, found.Units, found.Zone, now).Add(plan));
        if (json)
        {
            AdviceWriter.WriteJson(console.Out, writer => Write(writer, plan, text, found.Zone));
            return ExitCode.Success;
        }

        console.Out.WriteLine($"{found.Vat.Name}, from {text.Clock(plan.Begins)}");
        foreach (var load in plan.Loads)
        {
            console.Out.WriteLine($"  load {DayText.Load(load, found.Units)}");
        }

        console.Out.WriteLine();
        foreach (var (_, line) in text.Lines())
        {
            console.Out.WriteLine($"  {line}");
        }

        console.Out.WriteLine($"  ends           {text.Ends}");
        AdviceWriter.WriteList("This rests on:", text.Assumptions(), console.Out);
        return ExitCode.Success;
    }

    private static void Write(Utf8JsonWriter writer, DayPlan plan, DayText text, TimeZoneInfo zone)
    {
        Time("begins", plan.Begins);
        AdviceWriter.WriteObjects(writer, "loads", plan.Loads, load =>
        {
            writer.WriteNumber("number", load.Number);
            writer.WriteString("kind", load.Goods.Kind);
            writer.WriteNumber("grams", Math.Round(load.Goods.Grams, 1));
            Time("begins", load.Dips[0].In);
            Time("ends", load.Dips[^1].Aired);
            AdviceWriter.WriteObjects(writer, "dips", load.Dips, dip =>
            {
                Time("in", dip.In);
                Time("out", dip.Out);
                Time("aired", dip.Aired);
                writer.WriteNumber("liquorC", Math.Round(dip.LiquorC, 2));
                writer.WriteNumber("cooledC", Math.Round(dip.CooledC, 2));
                writer.WriteNumber("waitMinutes", Math.Round(dip.Waited.TotalMinutes, 1));
            });
        });
        AdviceWriter.WriteObjects(writer, "additions", plan.Additions, addition =>
        {
            writer.WriteNumber("afterDips", addition.AfterDips);
            Time("from", addition.From);
            Time("to", addition.To);
            AdviceWriter.WriteObjects(writer, "doses", addition.Doses, dose =>
            {
                writer.WriteString("material", dose.Material);
                writer.WriteNumber("amount", Math.Round(dose.Amount, 2));
                writer.WriteString("unit", EnumWord.Find<Material>(dose.Material)?.Unit());
            });
        });
        AdviceWriter.WriteObjects(writer, "rests", plan.Rests, rest =>
        {
            Time("from", rest.From);
            Time("to", rest.To);
        });
        Time("ends", plan.Ends);
        Time("endsEarly", plan.EndsEarly);
        Time("endsLate", plan.EndsLate);
        AdviceWriter.WriteSentences(writer, "assumptions", text.Assumptions());

        void Time(string name, DateTimeOffset? at) => AdviceWriter.WriteTime(writer, name, at, zone);
    }
}
