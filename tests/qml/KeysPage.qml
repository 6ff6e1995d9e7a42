// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "Typing"

    Item {
        id: page

        width: parent.width
        height: parent.height
        y: -keyboard.shift

        Sheet {
            width: parent.width

            Column {
                width: parent.width
                spacing: Theme.module

                Field { width: parent.width; label: "Stock number"; text: "R-221" }
                Field { width: parent.width; label: "Registration"; placeholder: "as on the plate"; problem: "another car in the house has this plate" }

                NoteField {
                    id: note

                    width: parent.width
                    label: "Note"
                    text: "Lacquer lifts at the near side edge, "
                    Component.onCompleted: {
                        edit()
                        input.cursorPosition = input.length
                    }
                }
            }
        }
    }

    TouchKeyboard {
        id: keyboard

        parent: root
        page: page
    }
}
