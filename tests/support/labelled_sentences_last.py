"""The second hold-out of labelled_sentences: written when the steps stood too."""

LAST_ROWS = """
Heat the oven to 170C fan/190C/gas 5 and butter two 20 cm sandwich tins. | | 190 | oven
Knead on a floured board for 8 to 10 minutes. | 8/9/10 | |
Put the lid on, turn the hob to low and let the ragu tick over for a good 2 hours. | 120 | | burner
Chop the 400 g tin of tomatoes straight in the tin with scissors. | | |
Bake the gratin uncovered at gas mark 5 for 45 mins to an hour. | 45/53/60 | 191 | oven
Slash the skin at 1 cm intervals. | | |
The terrine needs at least 8 hours in the fridge to firm up. | 480 | | fridge
Roast for the first 30 minutes at 220°C, then turn down to 170°C for the remaining 2 hours. | 30 \
120 | 220 170 | oven
Cook the pancakes for 1-2 mins a side on a medium-hot griddle. | 1/2/2 | | burner
Take the cheese out half an hour before you eat it. | 30 | |
Pressure cook on high for 35 minutes and let the steam out slowly. | 35 | |
Leave the batter to stand for 20 mins while you heat the oil. | 20 | | room burner
Broil 4 inches from the heat for 6 minutes, or until charred. | 6 | | grill
Bake at 400°F (200°C) for 18–22 minutes, rotating the sheet once. | 18/20/22 | 200 | oven
Cool completely before icing, about 2 hours. | 108/120/132 | | room
Warm the milk to 43C, no hotter, or the yeast will die. | | core43 | burner
Thaw in the refrigerator for 24 hours per 2 kg. | 1440 | | fridge
Cook until the thermometer shows 71 °C and the juices run clear. | | core71 |
Roll into a 30 cm circle, 3 mm thick, and cut into 8 wedges. | | |
Poach gently for fifteen to twenty minutes. | 15/18/20 | | burner
Boil for 3 min, lower the flame and simmer 10 min longer. | 3 10 | | burner
Preheat the oven to its hottest setting for an hour with the stone inside. | 60 | | oven
Slow-cook in a very low oven (110C) for 7 hours. | 420 | 110 | oven
Char the aubergines over glowing coals until collapsed. | | | grill
Cure in the fridge for 36 to 48 hours, turning every 12 hours. | 2160/2520/2880 720 | | fridge
Wait another five minutes or so before lifting the lid. | 4/5/6 | |
Simmer the stock for about 2 hours, skimming every half hour. | 108/120/132 30 | | burner
Reheat from frozen at 160C for 40 minutes. | 40 | 160 | oven
Melt the chocolate to 45 °C, cool it to 27 °C, then warm it to 31 °C. | | core45 core27 core31 | burner
Use within 2 days. | 2880 | |
Put it in at 250, and straight away drop the oven to 200. | | 250 200 | oven
Sear over a high heat for thirty seconds on each side. | 1 | | burner
Do not prove the dough for longer than 40 minutes. | 40 | |
Bake for 1 hour at 160C, without opening the oven door, then leave inside for 2 hours with the heat \
off. | 60 120 | 160 | oven
Reserve 100 ml of the water in which the pasta cooked. | | |
Give it 10 minutes in the freezer and 1 hour in the fridge. | 10 60 | | freezer fridge
Turn the joint a quarter of the way round. | | |
Scatter with sesame and return to the oven, switched off, for 5 more minutes. | 5 | | oven
Stir-fry over a fierce flame for 90 secs to 2 mins. | 2/2/2 | | burner
Pack into 3 jars of 500 ml each and keep in a cool, dark place for 2 weeks. | 20160 | | room
Grill the halloumi in a grill pan for 2 minutes each side. | 2 | | burner
Roast in a hot oven (220C/425F/gas 7) for half an hour. | 30 | 220 | oven
"""
