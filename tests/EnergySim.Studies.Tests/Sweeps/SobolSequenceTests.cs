using EnergySim.Studies.Sweeps;

namespace EnergySim.Studies.Tests.Sweeps;

public class SobolSequenceTests
{
    // The published first points of the sequence in the order of the Gray code (reference values, section 11).
    [Fact]
    public void At_TwoDimensions_GivesThePublishedPoints()
    {
        (double, double)[] published = [(0, 0), (0.5, 0.5), (0.75, 0.25), (0.25, 0.75), (0.375, 0.375), (0.875, 0.875), (0.625, 0.125), (0.125, 0.625)];
        var sequence = new SobolSequence(2);
        for (uint i = 0; i < published.Length; i++)
            Assert.Equal(published[i], (sequence.At(i, 0) / 4294967296.0, sequence.At(i, 1) / 4294967296.0));
    }

    // Van der Corput's sequence in base 2: 0, 1/2, 1/4, 3/4, 1/8, 5/8, 3/8, 7/8 (reference values, section 11), met at the Gray code of its index.
    [Fact]
    public void At_TheFirstDimension_IsVanDerCorput()
    {
        double[] published = [0, 0.5, 0.25, 0.75, 0.125, 0.625, 0.375, 0.875];
        var sequence = new SobolSequence(1);
        for (uint i = 0; i < published.Length; i++) Assert.Equal(published[i ^ (i >> 1)], sequence.At(i, 0) / 4294967296.0);
    }

    // SciPy 1.10.1, stats.qmc.Sobol(32, scramble=False, bits=32): sums over points 1, 3, 5, 100 and 777 of each dimension, times 2^32.
    [Fact]
    public void At_AllDimensions_AgreesWithAnotherLibrary()
    {
        long[] sums =
        [
            11731468288, 14256439296, 9927917568, 11278483456, 13501464576, 10624172032, 10045358080, 10154409984, 9047113728, 8132755456, 10011803648,
            12889096192, 12821987328, 11597250560, 10800332800, 11303649280, 11630804992, 13878951936, 10011803648, 12729712640, 12327059456, 8787066880,
            13224640512, 11161042944, 8560574464, 5490343936, 13442744320, 9961472000, 9365880832, 9500098560, 14508097536, 13694402560,
        ];
        var sequence = new SobolSequence(SobolSequence.MostDimensions);
        for (int d = 0; d < sums.Length; d++)
            Assert.Equal(sums[d], new uint[] { 1, 3, 5, 100, 777 }.Sum(i => (long)sequence.At(i, d)));
    }

    [Fact]
    public void At_PowersOfTwo_MeetEveryShareOnceInEveryDimension()
    {
        var sequence = new SobolSequence(SobolSequence.MostDimensions);
        for (int d = 0; d < SobolSequence.MostDimensions; d++)
            Assert.Equal(1024, Enumerable.Range(0, 1024).Select(i => sequence.At((uint)i, d) >> 22).Distinct().Count());
    }
}
