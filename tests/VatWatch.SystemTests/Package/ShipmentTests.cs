using System.Text.Json.Nodes;
using VatWatch.Packing;

namespace VatWatch.SystemTests.Package;

/// <summary>What is shipped of a folder. The assemblies are those that the tests have beside them, and the runtime's own.</summary>
public sealed class ShipmentTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shipment-").FullName;

    private static readonly Dictionary<string, Assembly> All = Directory.GetFiles(AppContext.BaseDirectory, "*.dll").Concat(Directory.GetFiles(Path.GetDirectoryName(typeof(object).Assembly.Location)!, "*.dll"))
        .Select(Assembly.Read).OfType<Assembly>().DistinctBy(assembly => assembly.Name).ToDictionary(assembly => assembly.Name, StringComparer.Ordinal);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_walk_reaches_what_code_names_however_far_and_nothing_else()
    {
        var reached = AssemblyWalk.From(All, "VatWatch.Core");
        Assert.All((string[])["VatWatch.Science", "MailKit", "BouncyCastle.Cryptography", "Microsoft.Data.Sqlite", "System.Private.CoreLib"], name => Assert.Contains(name, reached.Keys));
        Assert.DoesNotContain("VatWatch.Charts", reached.Keys);
        Assert.DoesNotContain("ScottPlot", reached.Keys);
    }

    /// <summary>The client of the store finds its native part by a name in a text.</summary>
    [Fact]
    public void A_name_in_a_text_is_a_use()
    {
        Assert.DoesNotContain(All["Microsoft.Data.Sqlite"].Uses, use => use.Assembly == "SQLitePCLRaw.batteries_v2");
        Assert.Contains("SQLitePCLRaw.provider.e_sqlite3", AssemblyWalk.From(All, "Microsoft.Data.Sqlite").Keys);
        Assert.Contains("System.Diagnostics.StackTrace", AssemblyWalk.From(All, "System.Private.CoreLib").Keys);
    }

    [Fact]
    public void An_assembly_that_only_hands_types_on_leads_to_those_that_are_asked_for()
    {
        Assert.Contains("System.Net.HttpListener", All["netstandard"].Forwards.Values);
        var reached = AssemblyWalk.From(All, "JsonSubTypes");
        Assert.All((string[])["netstandard", "System.Private.CoreLib", "Newtonsoft.Json"], name => Assert.Contains(name, reached.Keys));
        Assert.DoesNotContain("System.Net.HttpListener", reached.Keys);
    }

    [Fact]
    public void What_nothing_comes_to_is_taken_out_of_the_folder_and_of_the_list_that_the_host_checks()
    {
        Publish("{}");
        var shipment = Shipment.Of(_folder, "VatWatch.Core");
        Assert.Equal(["ScottPlot.dll", "createdump", "libmscordbi.so"], shipment.LeftOut.Order(StringComparer.Ordinal));
        Assert.Equal(["MailKit"], shipment.Packages.Select(package => package.Id));
        shipment.Settle();
        Assert.All(shipment.LeftOut, name => Assert.False(File.Exists(Path.Combine(_folder, name)), name));
        Assert.All((string[])["MailKit.dll", "libe_sqlite3.so", "libcoreclr.so"], name => Assert.True(File.Exists(Path.Combine(_folder, name)), name));
        var left = File.ReadAllText(Path.Combine(_folder, "VatWatch.Core.deps.json"));
        Assert.Contains("MailKit.dll", left, StringComparison.Ordinal);
        Assert.DoesNotContain("ScottPlot.dll", left, StringComparison.Ordinal);
    }

    [Fact]
    public void A_library_that_the_settings_ask_for_is_not_left_out_in_silence()
    {
        Publish("""{ "configProperties": { "System.GC.Name": "libmscordbi.so" } }""");
        Assert.Contains("libmscordbi.so", Assert.Throws<InvalidDataException>(() => Shipment.Of(_folder, "VatWatch.Core")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_that_was_not_published_is_refused() => Assert.Throws<InvalidDataException>(() => Shipment.Of(_folder, "VatWatch.Core"));

    private void Publish(string settings)
    {
        foreach (var name in (string[])["VatWatch.Core", "VatWatch.Science", "MailKit", "ScottPlot", "Microsoft.Data.Sqlite", "SQLitePCLRaw.batteries_v2", "SQLitePCLRaw.provider.e_sqlite3"])
        {
            File.Copy(Path.Combine(AppContext.BaseDirectory, $"{name}.dll"), Path.Combine(_folder, $"{name}.dll"));
        }

        foreach (var name in (string[])["libe_sqlite3.so", "libcoreclr.so", "libmscordbi.so", "createdump"])
        {
            File.WriteAllText(Path.Combine(_folder, name), "");
        }

        File.WriteAllText(Path.Combine(_folder, "VatWatch.Core.runtimeconfig.json"), settings);
        var manifest = new JsonObject
        {
            ["targets"] = new JsonObject { ["any"] = new JsonObject { ["MailKit/4.0.0"] = Files("lib/MailKit.dll"), ["ScottPlot/5.0.0"] = Files("lib/ScottPlot.dll"), ["VatWatch.Core/1.0.0"] = Files("VatWatch.Core.dll") } },
            ["libraries"] = new JsonObject { ["MailKit/4.0.0"] = Kind("package"), ["ScottPlot/5.0.0"] = Kind("package"), ["VatWatch.Core/1.0.0"] = Kind("project") },
        };
        File.WriteAllText(Path.Combine(_folder, "VatWatch.Core.deps.json"), manifest.ToJsonString());
    }

    private static JsonObject Files(string name) => new() { ["runtime"] = new JsonObject { [name] = new JsonObject() } };

    private static JsonObject Kind(string kind) => new() { ["type"] = kind };
}
