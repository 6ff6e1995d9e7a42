// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// How this kiosk draws and sounds, where phones reach it and where it prints. It is kept with the kiosk, not in the
// ledger.
//   screen, phones, printer;  signals diagonalWanted(): the diagonal is to be typed,
//   addressWanted(), printerWanted()
Item {
    id: root

    required property ScreenView screen
    required property PhoneAddress phones
    required property PrinterView printer

    signal diagonalWanted
    signal addressWanted
    signal printerWanted

    Column {
        width: Math.min(parent.width, Theme.mm(230))
        spacing: Theme.mm(6)

        SettingLine {
            title: qsTr("Diagonal of the screen")
            detail: qsTr("As its maker states it. Every size on the wall follows from it.")
            value: qsTr("%1 inches").arg(root.screen.diagonalText)
            onTapped: root.diagonalWanted()
        }

        Column {
            width: parent.width
            spacing: Theme.half

            Label {
                width: parent.width
                text: qsTr("This line is 100 mm long on the glass when the diagonal is right:")
                role: Label.Detail
                muted: true
                wrapMode: Text.WordWrap
            }

            Rectangle {
                width: Theme.mm(100)
                height: Theme.mm(3)
                color: Theme.ink
            }
        }

        Flow {
            width: parent.width
            spacing: Theme.gap

            ChoiceChip {
                text: qsTr("Light theme, for a bright workshop")
                selected: root.screen.light
                onTapped: root.screen.setLight(!root.screen.light)
            }

            ChoiceChip {
                text: qsTr("Less motion")
                selected: root.screen.lessMotion
                onTapped: root.screen.setLessMotion(!root.screen.lessMotion)
            }

            ChoiceChip {
                text: qsTr("A tone for what is signed or refused")
                selected: root.screen.sounds
                onTapped: root.screen.setSounds(!root.screen.sounds)
            }
        }

        SettingLine {
            title: qsTr("Photos from phones")
            detail: qsTr("The address of this kiosk in the workshop's network. A phone that reads the code beside a photo's place sends its pictures there.")
            value: root.phones.address.length > 0 ? root.phones.address : qsTr("off")
            onTapped: root.addressWanted()
        }

        SettingLine {
            title: qsTr("Printer")
            detail: qsTr("For records, door sheets and wheel tags. Without one they are saved as files.")
            value: root.printer.queue.length > 0 ? root.printer.queue : qsTr("none")
            onTapped: root.printerWanted()
        }
    }
}
