"""The work told: functions from `Work` to text, pages and tables. None of them works a number out."""
