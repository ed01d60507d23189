using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>Where each edition keeps a rule.</summary>
public class CodeEditionTests
{
    // REFERENCE §4.1 edition map: 2017 in 705.12(B)(2)(3), 2020 in 705.12(B)(3), the rules in the order in which the page numbers them; from 2023 the
    // paragraphs bear other numbers, so 705.12 is cited whole. Feeders: (B)(2)(1), then (B)(1). Power control: §4.2. 125 %: §4.3 (705.28, 705.30).
    [Theory]
    [InlineData(WiringRule.Busbar100, "705.12(B)(2)(3)(a)", "705.12(B)(3)(1)", "705.12, busbars")]
    [InlineData(WiringRule.Busbar120, "705.12(B)(2)(3)(b)", "705.12(B)(3)(2)", "705.12, busbars")]
    [InlineData(WiringRule.SumOfBreakers, "705.12(B)(2)(3)(c)", "705.12(B)(3)(3)", "705.12, busbars")]
    [InlineData(WiringRule.CentreFed, "705.12(B)(2)(3)(d)", "705.12(B)(3)(4)", "705.12, busbars")]
    [InlineData(WiringRule.Feeder, "705.12(B)(2)(1)", "705.12(B)(1)", "705.12, feeders")]
    [InlineData(WiringRule.FeederTap, "705.12(B)(2)(2)", "705.12(B)(2)", "705.12, taps")]
    [InlineData(WiringRule.SupplySide, "705.12(A)", "705.11", "705.11")]
    [InlineData(WiringRule.Continuous, "705.60", "705.28, 705.30", "705.28, 705.30")]
    [InlineData(WiringRule.LargestLoad, "710.15", "710.15", "710.15")]
    public void SourceRules_AreCitedByTheEdition(WiringRule rule, string in2017, string in2020, string later)
    {
        Assert.Equal([in2017, in2020, later, later], CodeEdition.All.Select(e => e.SectionOf(rule)));
        Assert.Equal([2017, 2020, 2023, 2026], CodeEdition.All.Select(e => e.Year));
    }

    // REFERENCE §4.4 (240.6(A)) and §4.5 (220.82, 220.83(A), 220.87). Editions after 2023 change the article's number [M].
    [Theory]
    [InlineData(WiringRule.StandardSize, "240.6(A)", "240.6(A)")]
    [InlineData(WiringRule.StandardLoad, "220 Part III", "Article 120 (before: 220)")]
    [InlineData(WiringRule.OptionalLoad, "220.82", "120.82 (before: 220.82)")]
    [InlineData(WiringRule.ExistingLoad, "220.83(A)", "120.83 (before: 220.83)")]
    [InlineData(WiringRule.MeasuredLoad, "220.87", "120.87 (before: 220.87)")]
    [InlineData(WiringRule.FullLoad, "702.4", "702.4(A)(3)")]
    public void LoadRules_MoveIn2026(WiringRule rule, string to2023, string in2026) =>
        Assert.Equal([to2023, to2023, to2023, in2026], CodeEdition.All.Select(e => e.SectionOf(rule)));

    // REFERENCE §4.2: 705.13 in 2020; 2023 refers to 750.30; 2026 back in Article 130 Part II.
    [Fact]
    public void PowerControl_BeginsIn2020() => Assert.Equal(
        [null, "705.13", "705.13 and 750.30", "705.13 and Article 130 Part II"], CodeEdition.All.Select(e => e.SectionOf(WiringRule.PowerControl)));

    // [M] of the page: taps and the standard method are from memory in every edition; the 2020 busbar rules and 220.82 to 2023 are not.
    [Fact]
    public void FromMemory_IsToldApart()
    {
        Assert.All(CodeEdition.All, e => Assert.True(e.IsFromMemory(WiringRule.FeederTap) && e.IsFromMemory(WiringRule.StandardLoad)));
        Assert.False(CodeEdition.Of(2020)!.IsFromMemory(WiringRule.Busbar120));
        Assert.False(CodeEdition.Of(2023)!.IsFromMemory(WiringRule.OptionalLoad));
    }
}
