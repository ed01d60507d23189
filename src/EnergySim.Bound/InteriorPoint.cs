namespace EnergySim.Bound;

/// <summary>
/// Solves a programme by following the central path: each step is foretold, then corrected, from one factor of <see cref="KktSystem"/>, in which
/// the order of time makes a year nearly as cheap as a look at each entry. The method is S. Mehrotra's, SIAM Journal on Optimization 2, 1992 (from memory).
/// </summary>
internal sealed class InteriorPoint
{
    private const int MostSteps = 100, MostStuck = 6;
    private const double Aim = 1e-11, Accepted = 1e-8, Near = 1e-4;

    private readonly KktSystem _system;
    private readonly double[] _cost, _right;

    // Columns (slacks among them), their distances from both bounds, and the price of each bound; infinite bounds have none.
    private readonly double[] _x, _below, _above, _zLow, _zHigh;
    private readonly double[] _y;

    // A step of each, and what it is made of.
    private readonly double[] _dx, _dy, _dzLow, _dzHigh;
    private readonly double[] _curve, _force, _rest, _dual, _change, _secondLow, _secondHigh;

    private InteriorPoint(Programme programme)
    {
        _system = new KktSystem(programme);
        (_cost, _right) = (_system.Cost, _system.Right);
        int columns = _cost.Length, rows = _right.Length;
        (_x, _below, _above, _zLow, _zHigh, _y) = (new double[columns], new double[columns], new double[columns], new double[columns], new double[columns], new double[rows]);
        (_dx, _dy, _dzLow, _dzHigh) = (new double[columns], new double[rows], new double[columns], new double[columns]);
        (_curve, _force, _rest, _dual, _change) = (new double[columns], new double[columns], new double[rows], new double[columns], new double[columns]);
        (_secondLow, _secondHigh) = (new double[columns], new double[columns]);
    }

    /// <summary>Solves a programme.</summary>
    /// <returns>The values of the columns; null where the path was lost, as it is when there is no solution or no least one.</returns>
    public static double[]? Solve(Programme programme)
    {
        var path = new InteriorPoint(programme);
        return path.Follow() is double[] x ? path._system.ColumnsOf(x) : null;
    }

    private double[]? Follow()
    {
        Start();
        double least = double.PositiveInfinity;
        double[] best = new double[_x.Length];
        for (int step = 0, stuck = 0; step < MostSteps && stuck < MostStuck; step++)
        {
            double error = Error();
            if (double.IsNaN(error)) break;
            stuck = error < 0.9 * least || error > Near ? 0 : stuck + 1;
            if (error < least)
            {
                least = error;
                _x.CopyTo(best, 0);
            }
            if (least < Aim) break;
            Step();
        }
        return least < Accepted ? best : null;
    }

    // In the middle of the bounds, moved toward the rows, and off the bounds again.
    private void Start()
    {
        for (int j = 0; j < _x.Length; j++)
        {
            (double low, double high) = (_system.Low[j], _system.High[j]);
            _x[j] = double.IsFinite(low) ? double.IsFinite(high) ? (low + high) / 2 : low : double.IsFinite(high) ? high : 0;
            _curve[j] = 1;
        }
        _system.Activity(_x, _rest);
        for (int r = 0; r < _rest.Length; r++) _rest[r] = _right[r] - _rest[r];
        _system.Factor(_curve);
        _system.Solve(_force, _rest, _dx, _dy);
        double price = Math.Max(1, LargestOf(_cost));
        for (int j = 0; j < _x.Length; j++)
        {
            (double low, double high) = (_system.Low[j], _system.High[j]);
            double margin = double.IsFinite(high - low) ? 0.1 * (high - low) : 1, x = _x[j] + _dx[j];
            if (double.IsFinite(low)) x = Math.Max(x, low + margin);
            if (double.IsFinite(high)) x = Math.Min(x, high - margin);
            (_x[j], _below[j], _above[j]) = (x, x - low, high - x);
            (_zLow[j], _zHigh[j]) = (double.IsFinite(low) ? price : 0, double.IsFinite(high) ? price : 0);
        }
    }

    // How far from optimal: the largest of what rows, prices and the gap between the two miss, each beside its own size.
    private double Error()
    {
        _system.Activity(_x, _rest);
        for (int r = 0; r < _rest.Length; r++) _rest[r] = _right[r] - _rest[r];
        _system.Transposed(_y, _dual);
        double value = 0, gap = 0;
        for (int j = 0; j < _x.Length; j++)
        {
            _dual[j] = _cost[j] - _dual[j] - _zLow[j] + _zHigh[j];
            value += _cost[j] * _x[j];
            if (_zLow[j] > 0) gap += _zLow[j] * _below[j];
            if (_zHigh[j] > 0) gap += _zHigh[j] * _above[j];
        }
        return Math.Max(gap / (1 + Math.Abs(value)), Math.Max(LargestOf(_rest) / (1 + LargestOf(_right)), LargestOf(_dual) / (1 + LargestOf(_cost))));
    }

    private void Step()
    {
        for (int j = 0; j < _x.Length; j++)
        {
            _curve[j] = (_zLow[j] > 0 ? _zLow[j] / _below[j] : 0) + (_zHigh[j] > 0 ? _zHigh[j] / _above[j] : 0);
            (_secondLow[j], _secondHigh[j]) = (0, 0);
        }
        _system.Factor(_curve);
        Direction(0);
        double mean = Mean(0, 0), ahead = Mean(Math.Min(1, LongestPrimal()), Math.Min(1, LongestDual()));
        for (int j = 0; j < _x.Length; j++) (_secondLow[j], _secondHigh[j]) = (_dx[j] * _dzLow[j], -_dx[j] * _dzHigh[j]);
        Direction(Math.Pow(ahead / mean, 3) * mean);
        double near = Math.Clamp(1 - mean, 0.9, 0.9995), primal = Math.Min(1, near * LongestPrimal()), dual = Math.Min(1, near * LongestDual());
        for (int j = 0; j < _x.Length; j++)
        {
            _x[j] += primal * _dx[j];
            _below[j] += primal * _dx[j];
            _above[j] -= primal * _dx[j];
            _zLow[j] += dual * _dzLow[j];
            _zHigh[j] += dual * _dzHigh[j];
        }
        for (int r = 0; r < _y.Length; r++) _y[r] += dual * _dy[r];
    }

    // The step toward the point of the path at which each bound's price × distance is a given one.
    private void Direction(double product)
    {
        for (int j = 0; j < _x.Length; j++)
        {
            double force = -_dual[j];
            if (_zLow[j] > 0) force += ((product - _secondLow[j]) / _below[j]) - _zLow[j];
            if (_zHigh[j] > 0) force -= ((product - _secondHigh[j]) / _above[j]) - _zHigh[j];
            _force[j] = force;
        }
        _system.Solve(_force, _rest, _dx, _dy);
        _system.Transposed(_dy, _change);
        for (int j = 0; j < _x.Length; j++)
        {
            double low = _zLow[j] > 0 ? ((product - _secondLow[j] - (_zLow[j] * _dx[j])) / _below[j]) - _zLow[j] : 0;
            double high = _zHigh[j] > 0 ? ((product - _secondHigh[j] + (_zHigh[j] * _dx[j])) / _above[j]) - _zHigh[j] : 0;
            // Near a bound the product would multiply rounding by the curve; the equation of prices says the same without.
            if (_curve[j] > 1)
            {
                if (_zHigh[j] <= 0 || (_zLow[j] > 0 && _zLow[j] * _above[j] > _zHigh[j] * _below[j])) low = _dual[j] - _change[j] + high;
                else high = low - _dual[j] + _change[j];
            }
            (_dzLow[j], _dzHigh[j]) = (low, high);
        }
    }

    private double LongestPrimal()
    {
        double step = double.MaxValue;
        for (int j = 0; j < _x.Length; j++)
        {
            if (_dx[j] < 0 && _zLow[j] > 0) step = Math.Min(step, -_below[j] / _dx[j]);
            if (_dx[j] > 0 && _zHigh[j] > 0) step = Math.Min(step, _above[j] / _dx[j]);
        }
        return step;
    }

    private double LongestDual()
    {
        double step = double.MaxValue;
        for (int j = 0; j < _x.Length; j++)
        {
            if (_dzLow[j] < 0) step = Math.Min(step, -_zLow[j] / _dzLow[j]);
            if (_dzHigh[j] < 0) step = Math.Min(step, -_zHigh[j] / _dzHigh[j]);
        }
        return step;
    }

    // Mean price × distance, after a step or before one.
    private double Mean(double primal, double dual)
    {
        double sum = 0;
        int count = 0;
        for (int j = 0; j < _x.Length; j++)
        {
            if (_zLow[j] > 0) (sum, count) = (sum + ((_below[j] + (primal * _dx[j])) * (_zLow[j] + (dual * _dzLow[j]))), count + 1);
            if (_zHigh[j] > 0) (sum, count) = (sum + ((_above[j] - (primal * _dx[j])) * (_zHigh[j] + (dual * _dzHigh[j]))), count + 1);
        }
        return sum / Math.Max(1, count);
    }

    private static double LargestOf(double[] values)
    {
        double largest = 0;
        foreach (double value in values) largest = double.IsNaN(value) ? value : Math.Max(largest, Math.Abs(value));
        return largest;
    }
}
