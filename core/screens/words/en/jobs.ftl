# Long work.
jobs-can-be-left = You can leave this screen; the work goes on.
jobs-look-again = Look again
jobs-go-on = Go on
