namespace VatWatch.Charts.Reports.Html;

/// <summary>How reports look, on a screen, on a telephone and on paper.</summary>
internal static class ReportStyle
{
    /// <summary>The rules.</summary>
    public const string Sheet = """
        :root { color: #22252e; background: #fff; font: 15px/1.45 'DejaVu Sans Condensed', sans-serif; }
        body { margin: 0; }
        main { max-width: 760px; margin: 0 auto; padding: 16px; }
        h1 { color: #1f3566; font-size: 1.6em; margin: 0; overflow-wrap: anywhere; }
        h2 { font-size: 1.05em; margin: 1.4em 0 .4em; border-bottom: 1px solid #b3aea2; }
        .note { font-size: .85em; }
        header p, footer, section p { color: #5d6270; margin: .2em 0 .8em; }
        footer { border-top: 1px solid #b3aea2; margin-top: 2em; padding-top: .5em; font-size: .85em; }
        figure { margin: 0; }
        figure svg { display: block; width: 100%; height: auto; }
        figure.narrow { display: none; }
        .photos { display: grid; grid-template-columns: repeat(auto-fill, minmax(16em, 1fr)); gap: .6em 1em; }
        .photos h2 { grid-column: 1 / -1; margin-bottom: 0; }
        .photos img { display: block; width: 100%; height: auto; }
        .photos figcaption { color: #5d6270; font-size: .9em; overflow-wrap: anywhere; }
        table { border-collapse: collapse; width: 100%; font-size: .92em; }
        th, td { text-align: left; vertical-align: top; padding: .3em .6em .3em 0; border-bottom: 1px solid #dcdcd6; overflow-wrap: anywhere; }
        thead th { color: #5d6270; font-weight: normal; }
        ul { margin: .2em 0; padding-left: 1.2em; }
        .figures th { font-weight: normal; width: 55%; }
        @media screen and (max-width: 600px) {
          figure.wide { display: none; }
          figure.narrow { display: block; }
          main { padding: 8px 10px; }
          table:not(.figures) thead { display: none; }
          table:not(.figures) tr { display: block; padding: .4em 0; border-bottom: 1px solid #b3aea2; }
          table:not(.figures) td { display: block; border: 0; padding: .05em 0; }
          table:not(.figures) td:not(:empty):not(:first-child)::before { content: attr(data-label) ": "; color: #5d6270; }
        }
        @page { margin: 12mm; }
        @media print {
          main { padding: 0; max-width: none; }
          figure.wide svg { max-height: 240mm; }
          figure, tr { break-inside: avoid; }
          h2 { break-after: avoid; }
          :root { font-size: 11px; }
        }

        """;
}
