"""The third hold-out of labelled_sentences, rich in temperatures."""

THIRD_ROWS = """
Get the oven going at 230°C/fan 210°C/gas 8. | | 230 | oven
Bake on the lowest shelf at 190C for 20 minutes, then 170C for a further 25. | 20 | 190 170 | oven
Roast until the deepest part of the breast shows 74°C. | | core74 | oven
Warm the cream to 85C and pour it over the chocolate. | | core85 | burner
Heat the oven to 350F and the grill to its highest. | | 177 | oven grill
Leave the dough at 22C for 3 hours. | 180 | 22 |
Fill a heavy pan a third full of oil and bring it to 170C. | | core170 | burner
Confit the legs at 90 °C for 6 to 7 hours in the oven. | 360/390/420 | 90 | oven
Cook the custard, stirring, until it thickens at about 84C. | | core84 |
Set your smoker to 225F and smoke the ribs for 5 hours. | 300 | 107 | smoker
Bake at Gas 2 for 2 hours. | 120 | 149 | oven
Roast in a fan oven at 160C for 1 hr 15. | 75 | 180 | oven
Chill the base in the coldest part of the fridge for 20 mins while you make the filling. | 20 | | fridge
The oven should be no hotter than 150C. | | 150 | oven
Rest the lamb, loosely covered, until it climbs to 60C. | | core60 | room
Boil the sugar to 121C, about 8 minutes. | 7/8/9 | core121 | burner
Turn the heat up to 220 and roast for 10 minutes to crisp the skin. | 10 | 220 | oven
Bake for a quarter of an hour at 200, turn down to 180 and give it another half an hour. | 15 30 | 200 180 | oven
Spread out on 2 trays and dry in a cool oven for 2-3 hours. | 120/150/180 | 140 | oven
Fry the doughnuts at 175 to 180C, two minutes on the first side and one on the second. | 2 | core178 | burner
Take the pork out at 62C, since it goes on rising as it rests. | | core62 |
Keep the soup above 63C until it is served. | | core63 |
Preheat the oven as high as it will go, ideally 260C, with a stone on the top rack. | | 260 | oven
Scald the milk, let it fall to 45C and stir in the culture. | | core45 | burner
Bake in a 375-degree oven for 40 to 45 minutes. | 40/43/45 | 191 | oven
Hold the fillets in a 55 °C water bath for 45 minutes. | 45 | core55 |
Simmer over a low heat, never letting it boil, for 1 hour. | 60 | | burner
Increase to 200°C (180°C fan) for the last quarter of an hour. | 15 | 200 |
Put the plates to warm at 70C. | | 70 |
Grill over hot coals for 6 minutes a side, to 60C at the bone. | 6 | core60 | grill
Ice the cake when it has dropped below 25C. | | core25 |
Reduce the oven to 130C/110C fan/gas ½ and bake for 1 hour 45 minutes. | 105 | 130 | oven
Freeze at -18C for at least 24 hours before serving raw. | 1440 | -18 | freezer
Prepare a moderate oven, 180C. | | 180 | oven
Cover the pot and braise in the oven, set at 150C, for 3½ hours. | 210 | 150 | oven
Cook the meringue over steam to 60 degrees, then beat until cold. | | core60 | burner
"""
