using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;

namespace VatWatch.Daemon.Web.Api;

/// <summary>Trying a contact out from a page.</summary>
internal static class ContactEndpoints
{
    public static void Map(RouteGroupBuilder api) =>
        api.MapPost("/contacts/{id}/test", TestAsync).WithName("testContact").WithSummary("Sends a test message to a contact and says what its server answered.")
            .Produces<ContactReply>().ProducesProblem(403).ProducesProblem(404).ProducesProblem(429);

    private static async Task<IResult> TestAsync(string id, HttpContext context, [Service] ContactTest test, [Service] ContactTestPace pace)
    {
        if (test.Contacts.FirstOrDefault(contact => contact.Id == id) is not { } found)
        {
            return Problems.Answer(404, "There is no such contact in the configuration.");
        }

        if (!pace.TryTake())
        {
            return Problems.Answer(429, "Test messages are sent at most every 10 s; try again in a moment.");
        }

        var outcome = await test.SendAsync(found, context.RequestAborted);
        return TypedResults.Json(new ContactReply(id, found.Way.Word, outcome.Kind == DeliveryKind.Taken, outcome.Words), ApiJson.Default.ContactReply);
    }
}

/// <summary>Lets a test message through at most every 10 s, so that a page cannot be made to flood a mailbox. Thread safe.</summary>
internal sealed class ContactTestPace(TimeProvider time)
{
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(10);
    private readonly Lock _lock = new();
    private long? _last;

    /// <summary>True when one may be sent now.</summary>
    public bool TryTake()
    {
        lock (_lock)
        {
            if (_last is { } last && time.GetElapsedTime(last) < Between)
            {
                return false;
            }

            _last = time.GetTimestamp();
            return true;
        }
    }
}

/// <summary>What became of a test message.</summary>
internal sealed record ContactReply(string Contact, string Way, bool Sent, string Answer);
