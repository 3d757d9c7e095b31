using VatWatch.Daemon.Verbs.Calibrate;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>Asks a person for what the flags do not say. A bad answer is asked for again; a bad flag ends it.</summary>
internal sealed class InitInterview(VerbConsole console, IReadOnlyList<ProbePlace> found, Func<string, string?> flag, IReadOnlyList<string> probeFlags)
{
    private const int MostProbes = 40;

    /// <summary>The answers.</summary>
    /// <exception cref="WrongFlagException">A flag will not do, or one is missing and there is nobody to ask; a sentence.</exception>
    /// <exception cref="GuideEndedException">The person left; a sentence.</exception>
    public InitAnswers Take()
    {
        Welcome();
        var display = Answer(InitQuestion.Display);
        var site = Answer(InitQuestion.Site);
        var vat = Answer(InitQuestion.Vat);
        var answers = new InitAnswers
        {
            Display = display,
            Site = site,
            VatName = vat,
            VatId = InitQuestion.IdOf(vat),
            Volume = Answer(InitQuestion.Volume),
            Fibre = Answer(InitQuestion.Fibre),
            Reducer = Answer(InitQuestion.Reducer),
            Probes = InitAnswers.Practice,
        };
        return probeFlags.Count > 0 ? ByFlags(answers) : console.Person is null ? answers : ByQuestions(answers);
    }

    private void Welcome()
    {
        if (console.Person is not null)
        {
            console.Out.WriteLine("A few questions; Enter takes what stands in brackets. Nothing is written before the end.");
        }
    }

    private string Answer(InitQuestion question)
    {
        if (flag(question.Flag) is { } given)
        {
            return SaidBack(given, question.Accepts(given.Trim()) ?? throw new WrongFlagException($"{question.Flag} is '{given}'; wanted {question.Wanted}."));
        }

        if (console.Person is null)
        {
            return question == InitQuestion.Display
                ? question.Usual!
                : throw new WrongFlagException($"{question.Flag} is missing and nobody is at the terminal to ask; wanted {question.Wanted}.");
        }

        while (true)
        {
            var line = Ask($"{question.Ask}{(question.Usual is null ? "" : $" [{question.Usual}]")}: ");
            if (question.Accepts(line.Length == 0 && question.Usual is { } usual ? usual : line) is { } answer)
            {
                return line.Length == 0 ? answer : SaidBack(line, answer);
            }

            console.Out.WriteLine($"'{line}' will not do; wanted {question.Wanted}.");
        }
    }

    /// <summary>Tells what was understood where it is not what was written.</summary>
    private string SaidBack(string written, string answer)
    {
        if (!written.Trim().Equals(answer, StringComparison.OrdinalIgnoreCase))
        {
            console.Out.WriteLine($"'{written.Trim()}' is taken as {answer}.");
        }

        return answer;
    }

    private InitAnswers ByFlags(InitAnswers answers)
    {
        var wishes = new List<ProbeWish>();
        foreach (var text in probeFlags)
        {
            wishes.Add(Fitting(answers, wishes, text, out var fault) ?? throw new WrongFlagException($"--probe: {fault}"));
        }

        return answers with { Probes = wishes };
    }

    private InitAnswers ByQuestions(InitAnswers answers)
    {
        console.Out.WriteLine(found.Count == 0 ? "No serial port, 1-wire thermometer, I2C adapter or SPI device was found on this machine." : "Found on this machine:");
        for (var index = 0; index < found.Count; index++)
        {
            console.Out.WriteLine($"  {index + 1}  {found[index].Described}");
        }

        if (found.Any(place => place.IsPassing))
        {
            console.Out.WriteLine("A name such as /dev/ttyUSB0 goes by the order in which plugs are found. Use one below /dev/serial/by-id or /dev/vatwatch where there is one.");
        }

        console.Out.WriteLine("Which probes? One a line, such as 'temperature on 1' or 'ph on /dev/i2c-1 as ads1115'; an empty line ends.");
        console.Out.WriteLine("hardware-notes names the drivers. No probe at all gives a simulated vat to practise on.");
        var wishes = new List<ProbeWish>();
        while (wishes.Count < MostProbes && Ask($"Probe {wishes.Count + 1}: ") is { Length: > 0 } line)
        {
            if (Fitting(answers, wishes, line, out var fault) is { } wish)
            {
                wishes.Add(wish);
            }
            else
            {
                console.Out.WriteLine(fault);
            }
        }

        return wishes.Count == 0 ? answers : answers with { Probes = wishes };
    }

    /// <summary>A wish that the whole configuration can hold; null with a sentence.</summary>
    private ProbeWish? Fitting(InitAnswers answers, IEnumerable<ProbeWish> before, string text, out string fault)
    {
        if (ProbeWish.Parse(text, found, out fault) is not { } wish)
        {
            return null;
        }

        if (InitDocument.Faults(InitDocument.Write(answers with { Probes = [.. before, wish] })) is [var first, ..])
        {
            fault = $"'{text}' will not do: the driver {wish.Driver} wants {first.Wanted}.";
            return null;
        }

        return wish;
    }

    private string Ask(string question)
    {
        console.Out.Write(question);
        console.Out.Flush();
        return console.Person!.ReadLine()?.Trim() ?? throw new GuideEndedException("the questions were not answered to the end; nothing was written.");
    }
}

/// <summary>A flag that will not do; the message is a sentence for the person.</summary>
internal sealed class WrongFlagException(string sentence) : Exception(sentence);
