using ScottPlot;
using ScottPlot.TickGenerators;
using SkiaSharp;
using VatWatch.Charts.Fonts;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Panels;

namespace VatWatch.Charts.Recipes.Frame;

/// <summary>What all panels of one chart share: width, margins, the time axis and the style of frame and grid.</summary>
internal sealed class ChartFrame
{
    /// <summary>Lays out a chart that starts at the canvas's upper left corner.</summary>
    public ChartFrame(ChartSize size, TimeWindow window)
    {
        (Size, Window) = (size, window);
        Left = size.IsNarrow ? 10 : 16;
        Right = size.Width - Left;
        Ticks = TimeTicks.Of(window, Math.Max(2, (int)((Right - Left - 2 * AxisRoom) / (size.TextSize * 4.6f))));
    }

    public ChartSize Size { get; }

    /// <summary>The span of its time axis.</summary>
    public TimeWindow Window { get; }

    /// <summary>The marks of the time axis.</summary>
    public IReadOnlyList<TimeTick> Ticks { get; }

    /// <summary>Left edge of everything, units.</summary>
    public float Left { get; }

    /// <summary>Right edge of everything, units.</summary>
    public float Right { get; }

    private float AxisRoom => Size.TextSize * 3.1f;

    /// <summary>The part of a panel that holds data: without the room for the numbers on both sides.</summary>
    public PixelRect DataArea(PixelRect panel) => new(Left + AxisRoom, Right - AxisRoom, panel.Bottom, panel.Top);

    /// <summary>The part of a panel of values that holds data, below its heading.</summary>
    public PixelRect ValueArea(PixelRect panel) =>
        DataArea(new PixelRect(panel.Left, panel.Right, panel.Bottom, panel.Top + Size.TextSize * 1.75f));

    /// <summary>Where a moment is on the canvas.</summary>
    public float XOf(DateTimeOffset moment)
    {
        var data = DataArea(PixelRect.Zero);
        return data.Left + (float)(Math.Clamp(Window.SecondsAt(moment) / Window.Seconds, 0, 1) * data.Width);
    }

    /// <summary>An empty plot in the style of the chart, its time axis set.</summary>
    public Plot NewPlot()
    {
        ChartFont.Register();
        var plot = new Plot();
        plot.RenderManager.ClearCanvasBeforeEachRender = false;
        plot.FigureBackground.Color = Colors.Transparent;
        plot.DataBackground.Color = Colors.Transparent;
        plot.Grid.MajorLineColor = Inks.Thread;
        plot.Grid.MajorLineWidth = 0.8f;
        plot.Axes.SetLimitsX(0, Window.Seconds);
        plot.Axes.Bottom.TickGenerator = new NumericManual([.. Ticks.Select(tick => tick.Seconds)], [.. Ticks.Select(_ => "")]);
        foreach (var axis in plot.Axes.GetAxes())
        {
            axis.FrameLineStyle.Color = Inks.Ash;
            axis.FrameLineStyle.Width = 0.8f;
            axis.TickLabelStyle.FontName = ChartFont.Family;
            axis.TickLabelStyle.FontSize = Size.TextSize * 0.92f;
            axis.TickLabelStyle.ForeColor = Inks.Text;
            axis.TickLabelStyle.OffsetY = axis is IYAxis ? Size.TextSize * 0.12f : 0;
            axis.MajorTickStyle.Length = axis == plot.Axes.Top ? 0 : 3;
            axis.MajorTickStyle.Color = Inks.Ash;
            axis.MajorTickStyle.Width = 0.8f;
        }

        return plot;
    }

    /// <summary>Renders a plot so that its data area is <paramref name="data"/>; numbers and ticks go outside it.</summary>
    public void Render(Plot plot, SKCanvas canvas, PixelRect data)
    {
        // The drawing library cuts off at the figure's edge, so the figure reaches as far as its numbers do.
        const float below = 8;
        plot.Layout.Fixed(new PixelPadding(data.Left, Size.Width - data.Right, below, below));
        var figure = new PixelRect(0, Size.Width, data.Bottom + below, data.Top - below);
        // The first rendering of a plot goes over the canvas twice, to settle its layout: in an SVG, everything would be there twice. So that
        // first time goes nowhere.
        using var nowhere = new SKNoDrawCanvas(Size.Width, Size.Height);
        plot.Render(nowhere, figure);
        plot.Render(canvas, figure);
    }
}
