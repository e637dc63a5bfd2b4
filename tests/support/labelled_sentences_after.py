"""The first hold-out of labelled_sentences: written when the grammar stood."""

AFTER_ROWS = """
Tip the mixture into the lined tin and bake in the middle of the oven for 55 minutes to 1 hour 5 \
minutes. | 55/60/65 | | oven
Stir the porridge over a gentle flame for 4 or 5 minutes, adding a splash of milk. | 4/5/5 | | burner
Crank the oven up to 240C/fan 220C/gas 9 and slide the pizzas in for 7-8 minutes. | 7/8/8 | 240 | oven
Wrap the dough tightly and refrigerate for a minimum of 45 minutes, or for as long as 24 hours. | \
45 1440 | | fridge
Let the joint come back to room temperature for roughly 40 minutes before it goes in the oven. | \
36/40/44 | | room
Pull the shoulder off the smoker once it hits 95°C inside, about 11 hours. | 594/660/726 | core95 |
Sprinkle over the 50 g of breadcrumbs and brown under the grill, 3 minutes or so. | 2/3/4 | | grill
Blitz the peas with 3 mint leaves until smooth. | | |
Roast, uncovered, at 325 degrees F for 25 minutes per pound. | 25 | 163 | oven
Pour in the wine, let it bubble for a couple of minutes, then add the stock. | 1/2/3 | |
Leave the jelly to set in the fridge for six hours, ideally overnight. | 360 480/600/840 | | fridge
The sauce keeps for 3 days chilled or 2 months frozen. | 4320 86400 | |
Spoon into 6 ramekins of 150 ml and stand them in a deep roasting tin. | | |
Turn the oven down to 140°C (gas 1) and leave the meringues for 1¼ hours. | 75 | 140 | oven
Whisk the yolks over barely simmering water until they reach 82°C. | | core82 | burner
Brush with egg, rest for 10 minutes, brush again and bake at 200C for 25. | 10 | 200 | room oven
Stir every 5 minutes so that nothing catches. | 5 | |
Cook the rice, covered, on the lowest heat for 12 mins, then turn off the heat and leave for 10 \
mins more. | 12 10 | | burner
Hold the puree at 65 to 70C until you plate. | | 68 |
Set a timer for 90 minutes and forget about the pot. | 90 | |
Preheat the grill to high and toast the slices for a minute on each side. | 1 | | grill
Ferment at 24-26°C for 4 to 5 days, skimming daily. | 5760/6480/7200 | 25 |
Add 2 C of flour, 1 tsp of salt and vitamin C powder. | | |
Pop the tray back in for the last five minutes. | 5 | |
Dust a 26 cm springform tin with flour and heat the oven to 170C. | | 170 | oven
Bring a pan of salted water to a rolling boil and drop in the pasta for 9 minutes. | 9 | | burner
Never leave hot oil unattended. | | |
After 30 minutes, baste the duck and turn it breast side up. | 30 | |
Steep the saffron in 2 tablespoons of hot milk for a quarter of an hour. | 15 | | room
Bake the sponge in a moderately hot oven until a skewer comes out clean, 22 to 26 minutes. | \
22/24/26 | 200 | oven
Freeze the slices on a tray for at least an hour, then bag them up. | 60 | | freezer
The pudding will take about 3½ hours in a slow oven. | 189/210/231 | 150 | oven
Set the dial to 375 and let it heat for 15 minutes. | 15 | 191 |
Deep-fry at 350°F, 6 pieces at a time, for 2½ to 3 minutes. | 3/3/3 | core177 | burner
Grease the dish an hour ahead and keep it somewhere cool. | 60 | |
Cover with foil for the first 40 minutes. | 40 | |
Toss the 1 kg of potatoes with oil and roast for fifty minutes, shaking the tin halfway. | 50 | | oven
Slice the 2-day-old loaf 1 cm thick. | | |
Cook sous vide at 56.5 °C for 2 h 30. | 150 | core57 |
Drain, rinse under the cold tap for 30 secs and pat dry. | 1 | |
Knock back the dough, shape it and prove again for half the time. | | | room
Simmer for no longer than 5 minutes, or the fish will fall apart. | 5 | | burner
Light the barbecue 45 minutes before you want to cook. | 45 | | grill
Take it off the heat, put the lid on and wait 8 minutes. | 8 | |
Divide into 12 and chill the balls for 1-2 hours; they can be frozen for a month at this point. | \
60/90/120 43200 | | fridge
Cook the onions on the stove top for 20 to 25 minutes, stirring now and then, until deep brown. | \
20/23/25 | | burner
Give the pan a shake and carry on for 1 or 2 minutes. | 1/2/2 | |
Roast at 450F for 20 min; reduce to 325F and continue for 1 hr 45 min. | 20 105 | 232 163 | oven
Serve 2 pieces to each guest within 15 minutes of frying. | 15 | |
Dry the peel in the oven at 60C for 3 hrs with the door ajar. | 180 | 60 | oven
Boil hard for 1 min, then test for a set at 104.5C on a sugar thermometer. | 1 | core105 | burner
Warm the plates in a low oven while the meat rests. | | 120 | oven room
"""
