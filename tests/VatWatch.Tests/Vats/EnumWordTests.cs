using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Conditions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Vats;

public sealed class EnumWordTests
{
    [Fact]
    public void Every_word_finds_its_member_again()
    {
        Check<AlarmState>();
        Check<AlarmPriority>();
        Check<AlarmActKind>();
        Check<VatState>();
        Check<DiagnosisKind>();
        Check<Quality>();
        Check<Quantity>();
        Check<Fibre>();
        Check<ReducingAgent>();
        Check<EntryKind>();
        Check<Material>();
        Check<Verdict>();
    }

    [Fact]
    public void Json_and_everything_else_say_the_same_word() =>
        Assert.Equal($"\"{VatState.TooHot.Word()}\"", System.Text.Json.JsonSerializer.Serialize(VatState.TooHot));

    [Fact]
    public void A_word_that_is_none_is_told_with_those_that_are()
    {
        Assert.Null(EnumWord.Find<Verdict>("fine"));
        Assert.Null(EnumWord.Find<Verdict>(null));
        Assert.Equal("\"fine\" is no Verdict; wanted one of good, poor", Assert.Throws<FormatException>(() => EnumWord.Parse<Verdict>("fine")).Message);
    }

    [Fact]
    public void A_number_that_is_no_member_has_no_word() => Assert.Throws<ArgumentOutOfRangeException>(() => ((Quality)17).Word());

    private static void Check<T>()
        where T : struct, Enum
    {
        Assert.All(Enum.GetValues<T>(), member => Assert.Equal(member, EnumWord.Parse<T>(member.Word())));
        Assert.Equal(Enum.GetValues<T>().Length, EnumWord.All<T>().Count);
    }
}
