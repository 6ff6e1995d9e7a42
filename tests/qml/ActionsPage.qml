// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "What can be touched"

    Column {
        width: parent.width
        spacing: Theme.module

        PageHeader {
            width: parent.width
            lead: "R-208"
            rest: "Pellew Anda 1.4 \u00b7 hatch \u00b7 slate"
            second: "bay 1 \u00b7 promised Thu 14:00"
            person: "Ines \u00b7 wheels"
        }

        Flow {
            width: parent.width
            spacing: Theme.gap

            FilterTab { text: "All"; selected: true; count: 24 }
            FilterTab { text: "Mechanical"; count: 4 }
            FilterTab { text: "Wheels"; count: 6 }
            FilterTab { text: "Smart repair"; count: 7 }
            FilterTab { text: "Glass"; count: 1 }
            FilterTab { text: "Valet"; count: 5 }
        }

        Flow {
            width: parent.width
            spacing: Theme.gap

            ActionButton { text: "Back to the wall"; symbol: Icon.Back }
            ActionButton { text: "Pause" }
            ActionButton { text: "Who are you?"; kind: ActionButton.Accent; symbol: Icon.Person }
            ActionButton { text: "Finish and sign"; kind: ActionButton.Safety }
            ActionButton { text: "Finish and sign"; kind: ActionButton.Safety; available: false; reason: "2 readings and the photo after are missing" }
            ActionButton { text: "Start"; kind: ActionButton.Accent; available: false; reason: "read the cautions first" }
        }

        Sheet {
            width: parent.width
            title: "On paper"

            Column {
                width: parent.width
                spacing: Theme.module

                Flow {
                    width: parent.width
                    spacing: Theme.gap

                    ActionButton { paper: true; text: "Back"; symbol: Icon.Back }
                    ActionButton { paper: true; text: "Photograph"; symbol: Icon.Camera }
                    ActionButton { paper: true; text: "Sign"; kind: ActionButton.Accent }
                    ActionButton { paper: true; text: "Release to sale"; kind: ActionButton.Safety }
                    ActionButton { paper: true; text: "Release to sale"; kind: ActionButton.Safety; available: false; reason: "3 holds are open" }
                }

                ChoiceRow {
                    width: parent.width
                    options: ["scuffed", "kerbed", "cracked", "buckled"]
                    index: 1
                }

                Flow {
                    width: parent.width
                    spacing: Theme.gap

                    ChoiceChip { text: "Ines"; note: "wheels"; selected: true }
                    ChoiceChip { text: "Matteo"; note: "smart repair" }
                    ChoiceChip { text: "Oskar"; note: "mechanical" }
                }
            }
        }

        Row {
            spacing: Theme.module

            Repeater {
                model: 12

                delegate: Icon {
                    required property int index

                    width: Theme.mm(14)
                    height: Theme.mm(14)
                    symbol: index + 1
                    colour: index === 0 || index === 10 ? Theme.hazardInk : Theme.groundInk
                }
            }
        }

        DemoMark {
        }
    }
}
