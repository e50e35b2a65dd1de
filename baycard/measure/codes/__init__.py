"""Codes a workshop reads off a vehicle: VIN, tyres, trouble codes, monitors, conductors, resistors."""
