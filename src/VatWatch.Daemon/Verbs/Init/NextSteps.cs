using VatWatch.Daemon.Wiring;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>What to do with a first configuration; with the package the service has the ports and the store, so it stops first.</summary>
internal static class NextSteps
{
    private const int Column = 66;

    public static void Tell(TextWriter output, string file, InitAnswers answers)
    {
        output.WriteLine($"{file} is written and passes `vatwatch check`. Next:");
        foreach (var (step, why) in answers.Data is null ? Plain(file, answers) : WithPackage(file, answers))
        {
            output.WriteLine(why.Length == 0 ? $"  {step}" : $"  {step.PadRight(Column)} {why}");
        }

        if (answers.Probes.FirstOrDefault(probe => probe.Place.IsPassing) is { } passing)
        {
            output.WriteLine($"{passing.Place.Text} is a name that can change at the next start; put one below /dev/serial/by-id or /dev/vatwatch in its place where there is one.");
        }

        output.WriteLine("VatWatch is not a safety device. The heater's own thermostat, a cut-out that is reset by hand, and ground-fault protection come first.");
    }

    private static IEnumerable<(string Step, string Why)> Plain(string file, InitAnswers answers)
    {
        if (!answers.IsPractice)
        {
            yield return ($"Look at the settings of each probe in {file}: what stands there is a beginning.", "");
            yield return ($"vatwatch read --config {file}", "one reading from every probe; mend what it says before you go on");
            if (IsElectrode(answers))
            {
                yield return ("vatwatch calibrate ph --help", "electrodes are calibrated before they are believed");
            }
        }

        yield return ($"vatwatch run --config {file}", answers.IsPractice ? "a simulated night in five minutes; the page is http://127.0.0.1:8080" : "watches; the page is http://127.0.0.1:8080");
        yield return ($"vatwatch notify --config {file} --all", "tries your phone; README, \"Making the phone ring\"");
    }

    private static IEnumerable<(string Step, string Why)> WithPackage(string file, InitAnswers answers)
    {
        if (!answers.IsPractice)
        {
            yield return ($"Look at the settings of each probe in {file}: what stands there is a beginning.", "");
        }

        yield return ("sudo systemctl stop vatwatch", "the service has the ports while it runs");
        yield return ($"sudo install -m 644 {file} {DaemonConfiguration.InstalledFile}", "what the service reads; change it there from now on");
        if (!answers.IsPractice)
        {
            yield return ("sudo -u vatwatch vatwatch read", "one reading from every probe; mend what it says before you go on");
            if (IsElectrode(answers))
            {
                yield return ("sudo -u vatwatch vatwatch calibrate ph --help", "electrodes are calibrated before they are believed");
            }
        }

        yield return ("sudo systemctl start vatwatch", "watches; the page is http://127.0.0.1:8080");
        yield return ("sudo -u vatwatch vatwatch notify --all", "tries your phone; README, \"Making the phone ring\"");
    }

    private static bool IsElectrode(InitAnswers answers) =>
        answers.Probes.Any(probe => probe.Driver is "ads1115" or "ufire-ise" && probe.Quantity is Quantity.Ph or Quantity.Orp);
}
