// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// At which address of this machine phones reach the kiosk.
//   setting;  open() shows it
TellingSheet {
    id: root

    required property PhoneAddress setting

    function open(): void {
        root.setting.ask.dismiss()
        typed.text = root.setting.address
        root.setting.refresh()
        root.shown = true
    }

    ask: setting.ask
    title: qsTr("Photos from phones")
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Connections {
        target: root.setting.ask

        // It is served and kept.
        function onDone(what: string): void {
            root.shown = false
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("The kiosk serves a page for photos at this address, and nothing else, while somebody has a code open. Choose the address of the workshop's own network.")
            wrapMode: Text.WordWrap
        }

        Flow {
            width: parent.width
            spacing: Theme.gap

            Repeater {
                model: root.setting.own

                delegate: ChoiceChip {
                    required property string modelData

                    text: modelData
                    selected: typed.text === modelData
                    onTapped: typed.text = modelData
                }
            }
        }

        Label {
            width: parent.width
            visible: root.setting.own.length === 0
            text: qsTr("This machine is in no network now.")
            muted: true
            wrapMode: Text.WordWrap
        }

        Field {
            id: typed

            objectName: "typed"
            width: Math.min(parent.width, Theme.mm(110))
            label: qsTr("Address")
            placeholder: qsTr("none: phones are not served")
            maximumLength: 15
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            visible: root.setting.address.length > 0
            text: qsTr("Serve no phones")
            onTapped: {
                typed.text = ""
                root.setting.setAddress("")
            }
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Save")
            available: typed.text.trim().length > 0
            reason: qsTr("an address")
            onTapped: root.setting.setAddress(typed.text)
        }
    ]
}
