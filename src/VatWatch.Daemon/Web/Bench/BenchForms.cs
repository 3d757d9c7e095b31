using VatWatch.Calibration;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Bench;

internal sealed class BenchForms(CalibrationBench bench, FormGate gate, PageMaker pages, SiteFacts site, TimeProvider time)
{
    /// <summary>Field of the buffer's value.</summary>
    public const string Label = "label";

    /// <summary>Field of the set of buffers.</summary>
    public const string Set = "set";

    /// <summary>Field of the check solution.</summary>
    public const string Solution = "solution";

    /// <summary>Field of the solution's temperature.</summary>
    public const string Temperature = "temperature";

    /// <summary>Field that keeps a calibration outside the limits.</summary>
    public const string KeepAnyway = "keep";

    private const string NotDone = "Not done";

    public static void Map(IEndpointRouteBuilder routes)
    {
        var calibration = routes.MapGroup("/calibration").ExcludeFromDescription();
        calibration.MapGet("", (HttpContext context, [Service] BenchForms forms) => forms.ListAsync(context));
        calibration.MapGet("/{probe}", (string probe, HttpContext context, [Service] BenchForms forms) => forms.ShowAsync(probe, context));
        calibration.MapPost("/{probe}/begin", (string probe, HttpContext context, [Service] BenchForms forms) => forms.ActAsync(probe, context, forms.Begin));
        calibration.MapPost("/{probe}/take", (string probe, HttpContext context, [Service] BenchForms forms) => forms.ActAsync(probe, context, (electrode, _) => forms.Take(electrode)));
        calibration.MapPost("/{probe}/clear", (string probe, HttpContext context, [Service] BenchForms forms) => forms.ActAsync(probe, context, (electrode, _) => forms.Clear(electrode)));
        calibration.MapPost("/{probe}/keep", (string probe, HttpContext context, [Service] BenchForms forms) => forms.ActAsync(probe, context, (electrode, form) => forms.KeepAsync(electrode, form, context.RequestAborted)));
    }

    private async Task ListAsync(HttpContext context)
    {
        var calibrations = await bench.CalibrationsAsync(context.RequestAborted);
        var now = time.GetUtcNow();
        await pages.ShowAsync<CalibrationPage>(
            context,
            ("Electrodes", calibrations is null ? null : bench.Electrodes.Select(one => ElectrodeView.Of(one.Vat, one.Probe, calibrations, bench.LimitsOf(one.Probe), now)).ToList()));
    }

    private async Task ShowAsync(string name, HttpContext context)
    {
        if (await FindAsync(name, context) is not (var vat, var probe, var calibrations))
        {
            return;
        }

        var work = bench.WorkOf(probe);
        var set = BufferChoice.All.FirstOrDefault(one => one.Word == context.Request.Query[Set]) ?? work.Choice;
        await pages.ShowAsync<BenchPage>(
            context,
            ("View", BenchView.Of(vat, probe, work, set, bench.Evaluate(probe), calibrations, bench.LimitsOf(probe), site.Units)));
    }

    private string? Begin(Electrode electrode, IFormCollection form)
    {
        var temperature = DyersQuantity.WithUnit(form[Temperature].ToString(), site.Units.TemperatureUnit);
        if (!ElectrodeText.TryTemperature(temperature, out var temperatureC))
        {
            return $"The temperature is \"{form[Temperature]}\"; wanted that of the solution, such as {site.Units.Temperature(25)}.";
        }

        var (probe, choice) = (electrode.Probe, BufferChoice.All.FirstOrDefault(one => one.Word == form[Set]) ?? BufferChoice.All[0]);
        if (!bench.WorkOf(probe).HasRoom(probe))
        {
            return "All solutions of this calibration are taken; keep it or begin anew.";
        }

        return probe.Quantity == Quantity.Orp ? BeginOrp(probe, form, choice, temperatureC) : BeginPh(probe, form, choice, temperatureC);
    }

    private string? BeginOrp(ProbeDefinition probe, IFormCollection form, BufferChoice choice, double temperatureC)
    {
        if (!CheckSolutionText.All.TryGetValue(form[Solution].ToString(), out var check))
        {
            return $"The check solution is \"{form[Solution]}\"; wanted one of {string.Join(", ", CheckSolutionText.All.Keys)}.";
        }

        bench.Begin(probe, choice, new(null, check, temperatureC));
        return null;
    }

    private string? BeginPh(ProbeDefinition probe, IFormCollection form, BufferChoice choice, double temperatureC)
    {
        var text = form[Label].ToString();
        if (text.Length == 0 && !choice.IsBottle)
        {
            bench.Begin(probe, choice, new(null, null, temperatureC));
            return null;
        }

        if (!ElectrodeText.TryLabel(text, out var label) || choice.Named(label) is not { } buffer)
        {
            return $"The buffer is \"{text}\"; wanted {(choice.IsBottle ? "the pH on the bottle, 0 to 14" : $"one of {choice.Values}")}.";
        }

        bench.Begin(probe, choice, new(buffer, null, temperatureC));
        return null;
    }

    private string? Take(Electrode electrode) => bench.Take(electrode.Vat, electrode.Probe, electrode.Calibrations);

    private Task<string?> KeepAsync(Electrode electrode, IFormCollection form, CancellationToken cancel) =>
        bench.KeepAsync(electrode.Probe, electrode.Calibrations, form[KeepAnyway] == "yes", cancel);

    private string? Clear(Electrode electrode)
    {
        bench.Clear(electrode.Probe);
        return null;
    }

    private Task ActAsync(string name, HttpContext context, Func<Electrode, IFormCollection, string?> act) =>
        ActAsync(name, context, (electrode, form) => Task.FromResult(act(electrode, form)));

    private async Task ActAsync(string name, HttpContext context, Func<Electrode, IFormCollection, Task<string?>> act)
    {
        if (await gate.OpenAsync(context, NotDone) is not { } form || await FindAsync(name, context) is not { } electrode)
        {
            return;
        }

        if (await act(electrode, form) is { } whyNot)
        {
            await gate.RefuseAsync(context, NotDone, $"{whyNot} Go back and try again.");
            return;
        }

        FormGate.Return(context, form);
    }

    private async Task<Electrode?> FindAsync(string name, HttpContext context)
    {
        var found = bench.Electrodes.FirstOrDefault(one => one.Probe.Id.Value == name);
        if (found.Probe is null)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No such electrode", "No probe of that name is calibrated here. The page Calibration lists those that are.");
            return null;
        }

        if (await bench.CalibrationsAsync(context.RequestAborted) is not { } calibrations)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status503ServiceUnavailable, "Not readable now", "The calibrations could not be read just now; try again in a while.");
            return null;
        }

        return new(found.Vat, found.Probe, calibrations);
    }

    /// <summary>What an address names, and every calibration there is.</summary>
    private sealed record Electrode(VatDefinition Vat, ProbeDefinition Probe, CalibrationCache Calibrations);
}
