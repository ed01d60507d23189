using EnergySim.Cli;

return Commands.Invoke(args, Console.Out, Console.Error);
