// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "Empty, busy, broken"

    Column {
        width: parent.width
        spacing: Theme.mm(8)

        Banner {
            width: parent.width
            what: "The wheel cannot be signed off yet"
            kept: "Your time and both readings are kept."
            todo: "The metal temperature is missing; the product data sheet asks for it."
            action: "Enter it"
        }

        Banner {
            width: parent.width
            kind: Banner.Fault
            what: "The disk did not take the sign-off"
            kept: "What you entered is still here and nothing was lost."
            todo: "Try again; if it fails again, call the manager."
            action: "Try again"
        }

        EmptyState {
            anchors.horizontalCenter: parent.horizontalCenter
            title: "No car waits for wheels"
            hint: "When one needs you, it appears here by itself."
            action: "Show all cars"
        }

        Waiting {
            anchors.horizontalCenter: parent.horizontalCenter
            text: "Reading the appraisal of R-221"
            progress: 0.6
        }

        Waiting {
            anchors.horizontalCenter: parent.horizontalCenter
            text: "Printing the record"
        }

        DemoMark {
            anchors.horizontalCenter: parent.horizontalCenter
        }

        Strap {
            width: parent.width
            text: "Do not move: wheels off"
        }
    }
}
