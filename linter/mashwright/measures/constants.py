"""Constants of nature, of definition and of the trade's scales, each once, with its source.

What a recipe, a brewhouse or a rule may set is none of these: bounds of what can be meant stand in `bounds`, facts of
ingredients and vessels in their tables.
"""

# By definition: international yard and pound agreement 1959; US gallon of 231 cubic inches; Weights and Measures Act
# 1985 for the imperial gallon.
KG_PER_LB = 0.45359237
KG_PER_OZ = KG_PER_LB / 16
L_PER_US_GALLON = 3.785411784
L_PER_IMPERIAL_GALLON = 4.54609
MG_PER_GRAIN = 64.79891
BAR_PER_PSI = 0.0689475729317831  # lbf/in², from the exact pound, inch and standard gravity

MIN_PER_DAY = 1440.0
MIN_PER_MONTH = 43830.0  # a twelfth of a year
MIN_PER_YEAR = 525960.0  # 365.25 days

ICE_K = 273.15
"""0 °C, K; by definition."""
ATMOSPHERE_BAR = 1.01325
"""The standard atmosphere; by definition."""
ATMOSPHERE_KPA = 101.325

WATER_KG_PER_L = 0.9982
"""At 20 °C [icumsa-density]."""
ETHANOL_TO_WATER = 0.79066
"""Density of ethanol over that of water, at 20 °C [oiml-r22]."""

# g/mol, from the IUPAC standard atomic weights; the chemicals library agrees (tests/published).
CALCIUM_G_MOL = 40.078
MAGNESIUM_G_MOL = 24.305
SODIUM_G_MOL = 22.990
CHLORIDE_G_MOL = 35.453
SULFATE_G_MOL = 96.06
BICARBONATE_G_MOL = 61.017
CALCIUM_CARBONATE_G_MOL = 100.09

CACO3_MG_PER_MEQ = 50.04
"""Calcium carbonate that holds 1 mEq of alkalinity, mg: half of its molar mass."""
BICARBONATE_MG_PER_MEQ = BICARBONATE_G_MOL
"""Bicarbonate, the same; its ion has one charge."""

CO2_G_PER_VOLUME = 1.977
"""g/l in one volume: 44.01 g/mol ÷ 22.2605 l/mol, the molar volume at 0 °C and 1 atm [iupac-nist-co2]."""

# Balling's balance: 2.0665 g of extract become 1 g of alcohol, 0.9565 g of carbon dioxide and 0.11 g of yeast
# [balling-nielsen].
EXTRACT_PER_ALCOHOL = 2.0665
CO2_PER_ALCOHOL = 0.9565
REAL_PER_APPARENT = 0.8192
"""Real over apparent degree of fermentation; from memory, among the fitted quotients of [cutaia-2009]."""
ABV_PER_GRAVITY = 131.25
"""% by volume of alcohol for what falls in specific gravity, by the trade's quick formula; common practice."""

# Colour. Beer: 25 and 12.7 times the absorbance at 430 nm, by definition. Malt: common practice, as maltsters and
# brewing pages print them, [malt-sheet-cards] among these.
EBC_PER_SRM = 25 / 12.7
SRM_PER_EBC = 12.7 / 25
SRM_PER_LOVIBOND, SRM_BELOW_LOVIBOND = 1.3546, 0.76
"""SRM = 1.3546 × °Lovibond - 0.76."""
EBC_PER_LOVIBOND, EBC_BELOW_LOVIBOND = 2.65, 1.2
"""EBC = 2.65 × °Lovibond - 1.2."""
