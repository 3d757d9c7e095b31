namespace VatWatch.Science.Dosing;

/// <summary>What a dose by response says of itself: on how many past doses it rests, with theory beside it.</summary>
internal static class LearnedText
{
    public static string Of(DoseFactor factor, double theoryGrams) => factor.Doses == 0
        ? $"By theory it would be {InWords.Mass(theoryGrams)}. No past dose of this vat has good readings a quarter of an hour before it and after its wait, so the range is as wide as theory is unsure; "
            + "log each dose when it goes in, and let nothing else go in until the wait is over."
        : $"It rests on {factor.Doses} past {(factor.Doses == 1 ? "dose" : "doses")} of this vat, which took {InWords.Plain(factor.Times)} times what theory asks for; by theory alone it would be {InWords.Mass(theoryGrams)}.";
}
