using EnergySim.Solar;

namespace EnergySim.Tests.Solar.Clouds;

public class SeededNoiseTests
{
    // Published first outputs of SplitMix64 for the seed 1234567 (common practice, from memory).
    [Fact]
    public void Next_KnownSeed_GivesThePublishedOutputs()
    {
        var noise = new SeededNoise(1234567);
        Assert.Equal(
            [6457827717110365317UL, 3203168211198807973UL, 9817491932198370423UL, 4593380528125082431UL, 16408922859458223821UL],
            [noise.Next(), noise.Next(), noise.Next(), noise.Next(), noise.Next()]);
    }

    // Quantiles of the normal distribution as tables print them (Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, tables 26.1 and 26.5; more digits from memory).
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.841344746068542949, 1)]
    [InlineData(0.975, 1.959963984540054)]
    [InlineData(0.95, 1.644853626951473)]
    [InlineData(0.9986501019683699, 3)]
    [InlineData(0.001, -3.090232306167813)]
    [InlineData(1e-10, -6.361340902404056)]
    [InlineData(1e-20, -9.262340089798408)]
    public void NormalScore_TableValue_IsThatScore(double chance, double score) => Assert.Equal(score, NormalScore.Of(chance), 1e-12);

    [Fact]
    public void Normal_ManyDraws_HaveTheMomentsOfTheNormal()
    {
        var noise = new SeededNoise(7);
        double[] draws = [.. Enumerable.Range(0, 100_000).Select(_ => noise.Normal())];
        Assert.Equal(0, draws.Average(), 0.01);
        Assert.Equal(1, draws.Average(d => d * d), 0.02);
        Assert.Equal(0, draws.Average(d => d * d * d), 0.04);
        Assert.Equal(3, draws.Average(d => d * d * d * d), 0.1);
    }

    [Fact]
    public void Stream_OtherIndexOrSeed_GivesOtherNumbers()
    {
        ulong[] firsts = [.. Enumerable.Range(0, 1000).SelectMany(i => (ulong[])[SeededNoise.Stream(1, i).Next(), SeededNoise.Stream(2, i).Next()])];
        Assert.Equal(firsts.Length, firsts.Distinct().Count());
        Assert.Equal(SeededNoise.Stream(1, 5).Next(), SeededNoise.Stream(1, 5).Next());
    }
}
