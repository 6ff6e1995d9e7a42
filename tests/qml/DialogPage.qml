// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "A question over the wall"

    Sheet {
        anchors.fill: parent

        CarOutline {
            anchors.fill: parent
            shape: "suv"
        }
    }

    DialogSheet {
        parent: root
        shown: true
        title: "Hand this wheel to somebody else?"
        actions: [
            ActionButton { paper: true; text: "Keep it" },
            ActionButton { paper: true; kind: ActionButton.Accent; text: "Hand over" }
        ]

        Column {
            width: parent.width
            spacing: Theme.module

            Label {
                width: parent.width
                text: "Your 38 minutes stay with you. The new person reads the cautions again before the timer starts."
                wrapMode: Text.WordWrap
            }

            ChoiceRow {
                width: parent.width
                options: ["Matteo", "Oskar", "Yara"]
            }
        }
    }
}
