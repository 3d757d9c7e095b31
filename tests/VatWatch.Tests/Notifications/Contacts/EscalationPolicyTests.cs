using VatWatch.Alarms;
using VatWatch.Notifications.Contacts;

namespace VatWatch.Tests.Notifications.Contacts;

/// <summary>Who is told what and when, in minutes after 22:00 UTC, over one alarm unless a test says otherwise.</summary>
public sealed class EscalationPolicyTests
{
    private static readonly DateTimeOffset Ten = new(2026, 3, 1, 22, 0, 0, TimeSpan.Zero);
    private static readonly Contact Plain = new() { Id = "dyer", Name = "Dyer", Way = new ContactWay.Mail("dyer@studio.example"), Units = DisplayUnits.Us };
    private static readonly ContactHours Daytime = new(new(7, 0), new(22, 30), TimeZoneInfo.Utc);

    [Fact]
    public void A_contact_without_settings_hears_what_is_announced_as_it_comes()
    {
        var book = Book(Plain);
        Assert.Equal(["too hot"], Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot"));
        Assert.Equal(["hotter"], Take(book, 5, AlarmState.Unacknowledged, AlarmState.Unacknowledged, "hotter"));
        Assert.Equal(["reminder"], Take(book, 10, AlarmState.Unacknowledged, AlarmState.Unacknowledged, "reminder", reminder: true));
        Assert.Empty(Take(book, 11, AlarmState.Unacknowledged, AlarmState.Acknowledged, "seen", announce: false));
        Assert.Equal(["below"], Take(book, 20, AlarmState.Acknowledged, AlarmState.Normal, "below"));
        Assert.Empty(Due(book, 600));
    }

    [Fact]
    public void Below_the_minimum_priority_nothing_is_told_and_a_rise_above_it_is()
    {
        var book = Book(Plain with { MinimumPriority = AlarmPriority.High });
        Assert.Empty(Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "odd", AlarmPriority.Medium));
        Assert.Equal(["worse"], Take(book, 1, AlarmState.Unacknowledged, AlarmState.Unacknowledged, "worse", AlarmPriority.High));
        Assert.Equal(["over"], Take(book, 2, AlarmState.Unacknowledged, AlarmState.ReturnedUnacknowledged, "over", AlarmPriority.High));
        Assert.Empty(Take(book, 3, AlarmState.Normal, AlarmState.Unacknowledged, "odd", AlarmPriority.Low, alarm: "cold"));
        Assert.Empty(Take(book, 4, AlarmState.Unacknowledged, AlarmState.ReturnedUnacknowledged, "over", AlarmPriority.Low, alarm: "cold"));
    }

    [Fact]
    public void The_second_contact_is_told_after_the_delay_with_the_newest_words()
    {
        var book = Book(Plain with { After = TimeSpan.FromMinutes(10) });
        Assert.Empty(Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot"));
        Assert.Empty(Take(book, 5, AlarmState.Unacknowledged, AlarmState.Unacknowledged, "hotter"));
        Assert.Empty(Due(book, 9.9));
        Assert.Equal(["hotter Not acknowledged for 10 min."], Due(book, 10));
        Assert.Empty(Due(book, 300));
        Assert.Equal(["below"], Take(book, 301, AlarmState.Unacknowledged, AlarmState.ReturnedUnacknowledged, "below"));
    }

    [Theory]
    [InlineData(AlarmState.Acknowledged)]
    [InlineData(AlarmState.ReturnedUnacknowledged)]
    [InlineData(AlarmState.Shelved)]
    [InlineData(AlarmState.Normal)]
    public void The_second_contact_hears_nothing_when_it_is_over_in_time(AlarmState after)
    {
        var book = Book(Plain with { After = TimeSpan.FromMinutes(10) });
        Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot");
        Assert.Empty(Take(book, 9, AlarmState.Unacknowledged, after, "over"));
        Assert.Empty(Due(book, 600));
        Assert.Empty(Take(book, 601, after, AlarmState.Unacknowledged, "again"));
        Assert.Equal(["again Not acknowledged for 10 min."], Due(book, 611));
    }

    [Fact]
    public void Repeats_come_at_the_contacts_own_pace_up_to_their_cap_and_reminders_of_the_alarm_are_left_out()
    {
        var book = Book(Plain with { Repeat = new(TimeSpan.FromMinutes(5), 2) });
        Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot");
        Assert.Empty(Take(book, 3, AlarmState.Unacknowledged, AlarmState.Unacknowledged, "still hot", reminder: true));
        Assert.Equal(["still hot Still not acknowledged after 5 min."], Due(book, 5));
        Assert.Equal(["still hot Still not acknowledged after 10 min."], Due(book, 10));
        Assert.Empty(Due(book, 600));
    }

    [Fact]
    public void What_gets_worse_is_told_at_once_and_the_repeats_count_from_there()
    {
        var book = Book(Plain with { Repeat = new(TimeSpan.FromMinutes(5), 6) });
        Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot");
        Assert.Equal(["scalding"], Take(book, 4, AlarmState.Unacknowledged, AlarmState.Unacknowledged, "scalding"));
        Assert.Empty(Due(book, 5));
        Assert.Single(Due(book, 9));
    }

    [Fact]
    public void Acknowledging_ends_the_repeats_and_a_new_alarm_begins_anew()
    {
        var book = Book(Plain with { Repeat = new(TimeSpan.FromMinutes(5), 6) });
        Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot");
        Take(book, 1, AlarmState.Unacknowledged, AlarmState.Acknowledged, "seen", announce: false);
        Assert.Empty(Due(book, 60));
        Assert.Equal(["again"], Take(book, 61, AlarmState.Acknowledged, AlarmState.Unacknowledged, "again"));
        Assert.Single(Due(book, 66));
    }

    [Fact]
    public void A_note_neither_tells_nor_ends_anything()
    {
        var book = Book(Plain with { After = TimeSpan.FromMinutes(10) });
        Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot");
        Assert.Empty(book.Take(Change(1, AlarmState.Normal, AlarmState.Normal, "looked at it") with { Note = "looked at it" }, At(1)));
        Assert.Single(Due(book, 10));
    }

    [Fact]
    public void Outside_the_hours_an_alarm_waits_for_them_unless_it_is_critical()
    {
        var book = Book(Plain with { Hours = Daytime });
        Assert.Empty(Take(book, 60, AlarmState.Normal, AlarmState.Unacknowledged, "weak", AlarmPriority.High));
        Assert.Equal(["too hot"], Take(book, 61, AlarmState.Normal, AlarmState.Unacknowledged, "too hot", AlarmPriority.Critical, alarm: "overheat"));
        Assert.Empty(Due(book, (8 * 60) + 59));
        Assert.Equal(["weak Not acknowledged for 8 h."], Due(book, 9 * 60));
    }

    [Fact]
    public void A_contact_may_keep_even_critical_alarms_out_of_the_night()
    {
        var book = Book(Plain with { Hours = Daytime, CriticalAlways = false });
        Assert.Empty(Take(book, 60, AlarmState.Normal, AlarmState.Unacknowledged, "too hot", AlarmPriority.Critical));
        Assert.Empty(Take(book, 70, AlarmState.Unacknowledged, AlarmState.ReturnedUnacknowledged, "below", AlarmPriority.Critical));
        Assert.Empty(Due(book, 9 * 60));
    }

    [Fact]
    public void What_becomes_critical_while_it_waits_for_the_morning_is_told_in_the_night()
    {
        var book = Book(Plain with { Hours = Daytime });
        Assert.Empty(Take(book, 60, AlarmState.Normal, AlarmState.Unacknowledged, "warm", AlarmPriority.High));
        Assert.Equal(["hot Not acknowledged for 5 min."], Take(book, 65, AlarmState.Unacknowledged, AlarmState.Unacknowledged, "hot", AlarmPriority.Critical));
    }

    [Fact]
    public void A_clock_that_is_not_trusted_keeps_nobody_asleep()
    {
        var book = Book(Plain with { Hours = Daytime });
        var change = Change(60, AlarmState.Normal, AlarmState.Unacknowledged, "weak", AlarmPriority.High);
        Assert.Single(book.Take(change, At(60) with { UtcTrusted = false }));
    }

    [Fact]
    public void Units_are_those_of_the_contact()
    {
        var change = Change(0, AlarmState.Normal, AlarmState.Unacknowledged, "");
        change = change with { Status = change.Status with { Text = new($"It is at {49.4:°C}."), Value = 49.4, Unit = "°C" } };
        foreach (var (units, text, json) in new[] { (DisplayUnits.Si, "It is at 49.4 °C.", "\"value\":49.4"), (DisplayUnits.Us, "It is at 120.9 °F.", "\"value\":120.9") })
        {
            var told = Assert.Single(Book(Plain with { Units = units }).Take(change, At(0)));
            Assert.Equal(text, told.Sentence);
            Assert.Contains(json, told.Document, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Each_contact_has_a_flood_limit_of_its_own()
    {
        var (first, second) = (Book(Plain), Book(Plain with { MinimumPriority = AlarmPriority.Critical }));
        var told = Enumerable.Range(0, 30).SelectMany(n => Take(first, n / 10.0, AlarmState.Normal, AlarmState.Unacknowledged, "x", AlarmPriority.High, alarm: $"a{n}")).ToList();
        Assert.Equal(11, told.Count);
        Assert.Equal(20, first.HeldBack);
        Assert.Equal(["too hot"], Take(second, 3, AlarmState.Normal, AlarmState.Unacknowledged, "too hot"));
    }

    [Fact]
    public void What_a_flood_holds_back_is_notified_after_a_kill_and_what_a_summary_spoke_of_is_not_notified_again()
    {
        var killed = Book(Plain);
        var goesOn = Book(Plain);
        foreach (var n in Enumerable.Range(0, 15))
        {
            Take(killed, n / 10.0, AlarmState.Normal, AlarmState.Unacknowledged, $"x{n}", AlarmPriority.High, alarm: $"a{n}");
            Take(goesOn, n / 10.0, AlarmState.Normal, AlarmState.Unacknowledged, $"x{n}", AlarmPriority.High, alarm: $"a{n}");
        }

        var after = Book(Plain);
        after.Restore(killed.Stored, Enumerable.Range(0, 15).Select(n => Status($"a{n}", $"x{n}", AlarmPriority.High) with { State = AlarmState.Unacknowledged, Since = At(n / 10.0) }), At(3));
        Assert.Equal(["x10", "x11", "x12", "x13", "x14"], Due(after, 3).Select(sentence => sentence.Split(' ')[0]).Order());
        Assert.Single(Due(goesOn, 12), sentence => sentence.Contains("5 alarm messages were held back", StringComparison.Ordinal));
        Assert.Empty(Due(goesOn, 40));
    }

    [Fact]
    public void What_the_flood_limit_says_itself_stands_under_no_vat_and_a_sentence_under_its_own()
    {
        var book = Book(Plain);
        var told = Enumerable.Range(0, 15)
            .SelectMany(n => book.Take(Change(n / 10.0, AlarmState.Normal, AlarmState.Unacknowledged, $"x{n}", AlarmPriority.High, alarm: $"a{n}"), At(n / 10.0))).ToList();
        Assert.Equal(11, told.Count);
        Assert.All(told, note => Assert.Equal(note.Sentence.StartsWith('x') ? "madder-lane" : VatId.Daemon.Value, note.Vat.Value));
        Assert.Null(told[^1].Action);
    }

    [Fact]
    public void After_a_restart_escalation_and_repeats_go_on_where_they_were()
    {
        var contact = Plain with { After = TimeSpan.FromMinutes(10), Repeat = new(TimeSpan.FromMinutes(5), 3) };
        var before = Book(contact);
        Take(before, 0, AlarmState.Normal, AlarmState.Unacknowledged, "waits", alarm: "cold");
        Take(before, 6, AlarmState.Normal, AlarmState.Unacknowledged, "later", alarm: "oxidised");
        Due(before, 10);
        Due(before, 15);

        // Killed at 15 min and started again at 18 min: the monotonic clock begins anew.
        var after = Book(contact);
        var restart = new Stamp(Ten.AddMinutes(18), TimeSpan.Zero, true);
        after.Restore(before.Stored, [Status("cold", "waits", AlarmPriority.Critical), Status("oxidised", "later", AlarmPriority.Critical)], restart);
        Stamp Then(double minutes) => new(Ten.AddMinutes(minutes), TimeSpan.FromMinutes(minutes - 18), true);
        Assert.Equal(["later Not acknowledged for 12 min."], after.Due(Then(18)).Select(note => note.Sentence));
        Assert.Equal(["waits Still not acknowledged after 20 min."], after.Due(Then(20)).Select(note => note.Sentence));
        Assert.Equal(["waits Still not acknowledged after 25 min.", "later Still not acknowledged after 19 min."], after.Due(Then(25)).Select(note => note.Sentence).OrderDescending(StringComparer.Ordinal));
        Assert.True(after.IsChanged);
    }

    [Fact]
    public void An_alarm_that_the_calls_know_nothing_of_is_escalated_from_its_beginning()
    {
        var book = Book(Plain with { After = TimeSpan.FromMinutes(10) });
        book.Restore([], [Status("overheat", "too hot", AlarmPriority.Critical)], new Stamp(Ten.AddMinutes(4), TimeSpan.Zero, true));
        Assert.Empty(book.Due(new Stamp(Ten.AddMinutes(9), TimeSpan.FromMinutes(5), true)));
        Assert.Single(book.Due(new Stamp(Ten.AddMinutes(10), TimeSpan.FromMinutes(6), true)));
    }

    [Fact]
    public void An_alarm_back_from_suppression_is_escalated_further_but_not_told_anew()
    {
        var book = Book(Plain with { Repeat = new(TimeSpan.FromMinutes(5), 6) });
        Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "weak");
        Take(book, 2, AlarmState.Unacknowledged, AlarmState.Suppressed, "weak", announce: false);
        Assert.Empty(Due(book, 6));
        Assert.Empty(Take(book, 7, AlarmState.Suppressed, AlarmState.Unacknowledged, "weak", announce: false));
        Assert.Single(Due(book, 12));
    }

    [Fact]
    public void The_second_contact_stands_in_at_once_when_the_first_cannot_be_reached_and_within_the_hours()
    {
        var book = Book(Plain with { After = TimeSpan.FromMinutes(30) });
        Assert.Empty(Take(book, 0, AlarmState.Normal, AlarmState.Unacknowledged, "too hot"));
        Assert.Empty(Due(book, 1));
        Assert.Equal(["too hot Not acknowledged for 2 min."], book.Due(At(2), standsIn: true).Select(note => note.Sentence));
        Assert.Empty(book.Due(At(3), standsIn: true));
        Assert.Empty(Due(book, 40));

        var asleep = Book(Plain with { After = TimeSpan.FromMinutes(30), Hours = Daytime, CriticalAlways = false });
        Assert.Empty(Take(asleep, 60, AlarmState.Normal, AlarmState.Unacknowledged, "too hot"));
        Assert.Empty(asleep.Due(At(61), standsIn: true));
        Assert.Single(asleep.Due(At(9 * 60), standsIn: true));
    }

    private static EscalationPolicy Book(Contact contact) => new(contact, new FloodGate());

    private static IReadOnlyList<string> Take(
        EscalationPolicy book, double minutes, AlarmState before, AlarmState after, string text, AlarmPriority priority = AlarmPriority.Critical,
        bool announce = true, bool reminder = false, string alarm = "redox-weak") =>
        [.. book.Take(Change(minutes, before, after, text, priority, announce, reminder, alarm), At(minutes)).Select(note => note.Sentence)];

    private static IReadOnlyList<string> Due(EscalationPolicy book, double minutes) => [.. book.Due(At(minutes)).Select(note => note.Sentence)];

    private static AlarmChange Change(
        double minutes, AlarmState before, AlarmState after, string text, AlarmPriority priority = AlarmPriority.Critical,
        bool announce = true, bool reminder = false, string alarm = "redox-weak") =>
        new(before, Status(alarm, text, priority) with { State = after, Since = At(minutes) }, At(minutes), null, announce) { IsReminder = reminder };

    private static AlarmStatus Status(string alarm, string text, AlarmPriority priority) => new()
    {
        Alarm = new(alarm),
        Vat = new("madder-lane"),
        State = AlarmState.Unacknowledged,
        Priority = priority,
        Since = At(0),
        Text = text,
        Action = "Look at it.",
    };

    private static Stamp At(double minutes) => new(Ten.AddMinutes(minutes), TimeSpan.FromMinutes(minutes), true);
}
