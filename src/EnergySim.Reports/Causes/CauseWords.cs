using EnergySim.Studies.Causes;

namespace EnergySim.Reports.Causes;

/// <summary>The causes of a saving in plain words.</summary>
public static class CauseWords
{
    /// <summary>A few words that stand beside an amount.</summary>
    public static string Of(Cause cause) => cause switch
    {
        Cause.ShiftedIntoPeak => "from the battery in the dearest hours",
        Cause.UsedAtHome => "from the battery at other hours",
        Cause.SoldFromBattery => "sold from the battery",
        Cause.ForgoneCredit => "solar kept instead of sold",
        Cause.BoughtToCharge => "bought to charge it",
        Cause.LossesAndStandby => "losses and standby",
        Cause.Demand => "demand charges",
        Cause.Tiers => "tiers and baseline",
        Cause.Events => "the utility's events",
        _ => "minimum, taxes and fixed charges",
    };
}
