"""What holds and what breaks: forces, contacts and the linear programs behind them."""
