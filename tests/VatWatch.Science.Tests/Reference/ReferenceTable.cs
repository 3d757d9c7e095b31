using System.Globalization;

namespace VatWatch.Science.Tests.Reference;

/// <summary>Reads the tables of this folder: lines starting with # name the sources, the next line names the columns.</summary>
internal sealed class ReferenceTable
{
    private readonly string[] columns;

    private ReferenceTable(string[] columns, IReadOnlyList<Row> rows)
    {
        this.columns = columns;
        Rows = rows;
    }

    internal IReadOnlyList<Row> Rows { get; }

    internal static ReferenceTable Load(string fileName)
    {
        var lines = File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Reference", fileName))
            .Where(line => line.Length > 0 && !line.StartsWith('#'))
            .Select(line => line.Split(','))
            .ToArray();
        var rows = new List<Row>();
        var table = new ReferenceTable(lines[0], rows);
        rows.AddRange(lines.Skip(1).Select(cells => new Row(table, cells)));
        return rows.Count > 0 ? table : throw new InvalidDataException($"{fileName} has no rows.");
    }

    internal sealed class Row(ReferenceTable table, string[] cells)
    {
        internal string Text(string column) => cells[Array.IndexOf(table.columns, column)];

        internal double Number(string column) => double.Parse(Text(column), CultureInfo.InvariantCulture);
    }
}
