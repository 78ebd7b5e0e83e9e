"""The command line: arguments to `week` calls, results to text or JSON, nothing else."""
