using System.Globalization;

namespace VatWatch.Packing;

/// <summary>Makes what <c>dotnet publish</c> wrote into what is shipped: takes out what no code comes to, and writes the notices of what is left.</summary>
internal static class Program
{
    private const int Usage = 64, Broken = 65;

    public static int Main(string[] arguments)
    {
        if (arguments is not [var folder, var assets])
        {
            Console.Error.WriteLine("packing: wanted the folder that was published and the project.assets.json of its project.");
            return Usage;
        }

        try
        {
            var shipped = Shipment.Of(folder, "vatwatch");
            shipped.Settle();
            File.WriteAllText(Path.Combine(folder, "NOTICES.txt"), Notices.Write(shipped.Packages.Select(package => NuGetPackage.Find(package, assets))));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"left out {shipped.LeftOut.Count} files that nothing comes to, {shipped.LeftOutBytes / 1_000_000} MB; {shipped.Packages.Count} packages in NOTICES.txt"));
            return 0;
        }
        catch (InvalidDataException refused)
        {
            Console.Error.WriteLine($"packing: {refused.Message}");
            return Broken;
        }
    }
}
