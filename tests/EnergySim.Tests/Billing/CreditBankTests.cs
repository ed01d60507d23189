using CsCheck;
using EnergySim.Billing;
using EnergySim.TestData;

namespace EnergySim.Tests.Billing;

public class CreditBankTests
{
    [Fact]
    public void Use_OfSeveralBills_TakesTheOldestFirst()
    {
        var bank = new CreditBank();
        bank.Add(0, 5);
        bank.Add(1, 7);
        Assert.Equal(6m, bank.Use(6));
        // One of bill 0's is used up, six of bill 1's are left; bill 0's lapse takes nothing.
        bank.Expire(3, 2);
        Assert.Equal(6m, bank.Left);
        bank.Expire(4, 2);
        Assert.Equal(0m, bank.Left);
    }

    [Fact]
    public void Add_BelowZero_IsOwedUntilEarned()
    {
        var bank = new CreditBank();
        bank.Add(0, 2);
        bank.Add(1, -5);
        Assert.Equal((-3m, 0m), (bank.Left, bank.Use(4)));
        bank.Add(2, 8);
        Assert.Equal(5m, bank.Use(9));
    }

    /// <summary>Against the plain rule: a list of single cents, each with the bill that earned it.</summary>
    [Fact]
    public void Bank_OnRandomOrders_IsTheListOfCents() => FixedSeed.Check(
        Gen.Select(Gen.Int[-4, 9], Gen.Int[0, 9]).Array[1, 12].Select(Gen.Int[0, 4]), 2_000, order =>
        {
            ((int Earned, int Wanted)[] steps, int lasts) = order;
            var bank = new CreditBank();
            var cents = new List<int>();
            int owed = 0;
            for (int bill = 0; bill < steps.Length; bill++)
            {
                bank.Expire(bill, lasts);
                cents.RemoveAll(earned => bill - earned > lasts);
                bank.Add(bill, steps[bill].Earned);
                for (int n = 0; n < steps[bill].Earned; n++)
                    if (owed > 0) owed--;
                    else cents.Add(bill);
                for (int n = 0; n > steps[bill].Earned; n--)
                    if (cents.Count > 0) cents.RemoveAt(0);
                    else owed++;
                int used = Math.Min(cents.Count, steps[bill].Wanted);
                cents.RemoveRange(0, used);
                Assert.Equal(used, bank.Use(steps[bill].Wanted));
                Assert.Equal(cents.Count - owed, bank.Left);
            }
        });
}
