"""Workbooks. Apart from imports, the only room that knows openpyxl."""
