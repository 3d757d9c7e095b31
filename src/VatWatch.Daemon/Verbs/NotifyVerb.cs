using System.CommandLine;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch notify</c>: sends a test sentence to a contact, or to all, and says what the far side answered.</summary>
internal static class NotifyVerb
{
    public static Command Create(VerbConsole console)
    {
        var contact = new Argument<string?>("CONTACT")
        {
            Description = "The id of the contact; \"mqtt\" when the configuration names none.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var all = new Option<bool>("--all") { Description = "Every contact of the configuration." };
        var config = CommonOptions.Config();
        var command = new Command("notify", "Send a test message to a contact and say what its server answered; exit 1 when one was not reached.") { contact, all, config };
        command.Validators.Add(parsed =>
        {
            if (parsed.GetValue(contact) is null != parsed.GetValue(all))
            {
                parsed.AddError("name one contact, or --all; not both.");
            }
        });
        command.SetAction((parsed, cancel) => RunAsync(parsed.GetValue(contact), parsed.GetValue(config), console, cancel));
        return command;
    }

    private static async Task<int> RunAsync(string? id, string? path, VerbConsole console, CancellationToken cancel)
    {
        var configuration = console.Load(path);
        var contacts = configuration.Contacts.Contacts.Where(contact => id is null || contact.Id == id).ToList();
        if (contacts.Count == 0)
        {
            var known = string.Join(", ", configuration.Contacts.Contacts.Select(contact => contact.Id));
            return console.Fail(ExitCode.WrongUsage, $"there is no contact \"{id}\" in {configuration.File}; wanted one of {known}.");
        }

        var test = new ContactTest(
            configuration.Contacts, configuration.Mqtt, configuration.Watch.Site, [.. configuration.Watch.Vats.Select(vat => vat.Definition.Id)], null, TimeProvider.System, NullLogger<ContactTest>.Instance);
        var code = ExitCode.Success;
        foreach (var contact in contacts)
        {
            var outcome = await test.SendAsync(contact, cancel);
            var isTaken = outcome.Kind == DeliveryKind.Taken;
            (isTaken ? console.Out : console.Error).WriteLine($"{contact.Id} ({contact.Way.Word}): {(isTaken ? "sent" : "NOT sent")}; {outcome.Words}.");
            code = isTaken ? code : ExitCode.Failure;
        }

        return code;
    }
}
