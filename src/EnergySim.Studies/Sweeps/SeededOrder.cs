using EnergySim.Solar;

namespace EnergySim.Studies.Sweeps;

/// <summary>
/// An order of 0 … n − 1 by chance, any place of which can be asked without making the rest: four rounds of a Feistel network over the next
/// even number of bits, walked until it falls inside (Black and Rogaway, Ciphers with arbitrary finite domains, 2002).
/// </summary>
internal readonly struct SeededOrder
{
    private const int Rounds = 4;

    private readonly uint _count;
    private readonly int _halfBits;
    private readonly ulong _seed;

    public SeededOrder(int count, ulong seed)
    {
        (_count, _seed) = ((uint)count, seed);
        _halfBits = 1;
        while (1L << (2 * _halfBits) < count) _halfBits++;
    }

    /// <summary>What stands at a place.</summary>
    public int At(int place)
    {
        uint at = (uint)place;
        do at = Walk(at);
        while (at >= _count);
        return (int)at;
    }

    private uint Walk(uint at)
    {
        uint mask = (1u << _halfBits) - 1, left = at >> _halfBits, right = at & mask;
        for (int round = 0; round < Rounds; round++)
            (left, right) = (right, left ^ ((uint)SeededNoise.Stream(_seed + (ulong)round, (int)right).Next() & mask));
        return (left << _halfBits) | right;
    }
}
