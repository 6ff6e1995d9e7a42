// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One operation of the catalogue: its minutes, material, limits and evidence, and which of them are
// the house's to change.
//   view;  signal numberWanted(...): a number is to be typed
TellingSheet {
    id: root

    required property CatalogueView view
    readonly property bool wide: contentWidth > Theme.mm(250)

    signal numberWanted(string key, string title, string unit, int decimals, string hint, string text)

    ask: view.ask
    title: view.kindTitle
    sheetWidth: Math.min(Theme.mm(420), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Grid {
        id: page

        readonly property real columnWidth: root.wide ? (width - columnSpacing) / 2 : width

        width: parent.width
        columns: root.wide ? 2 : 1
        columnSpacing: Theme.mm(10)
        rowSpacing: Theme.module

        Column {
            width: page.columnWidth
            spacing: Theme.module

            Label {
                width: parent.width
                text: root.view.aboutWords
                role: Label.Detail
                muted: true
                wrapMode: Text.WordWrap
            }

            Column {
                width: parent.width

                SettingLine {
                    title: qsTr("Minutes, low")
                    value: qsTr("%1 min").arg(root.view.low)
                    onTapped: root.numberWanted("low", title, qsTr("min"), 0, "", String(root.view.low))
                }

                SettingLine {
                    title: qsTr("Minutes, usual")
                    value: qsTr("%1 min").arg(root.view.usual)
                    onTapped: root.numberWanted("usual", title, qsTr("min"), 0, "", String(root.view.usual))
                }

                SettingLine {
                    title: qsTr("Minutes, high")
                    value: qsTr("%1 min").arg(root.view.high)
                    onTapped: root.numberWanted("high", title, qsTr("min"), 0, "", String(root.view.high))
                }

                SettingLine {
                    title: qsTr("Material")
                    value: root.view.materialWords
                    onTapped: root.numberWanted("material", title, root.view.currency, 2, qsTr("Cost of one operation."), root.view.materialText)
                }
            }

            Label {
                text: qsTr("Asked for by this house, beside its own: a photo")
                role: Label.Detail
                muted: true
            }

            ChoiceChips {
                width: parent.width
                choices: root.view.photos
            }
        }

        Column {
            width: page.columnWidth
            spacing: Theme.module

            Column {
                width: parent.width

                Label {
                    text: qsTr("Limits")
                    role: Label.Detail
                    muted: true
                }

                Repeater {
                    id: limits

                    model: root.view.limits

                    delegate: SettingLine {
                        required property string rowId
                        required property string boundWords
                        required property string ownerWords
                        required property string source
                        required property bool own
                        required property bool changed
                        required property string valueText
                        required property string unitWords
                        required property int decimals
                        required title

                        width: page.columnWidth
                        detail: source
                        value: boundWords
                        note: changed ? qsTr("%1, changed").arg(ownerWords) : ownerWords
                        mark: changed ? SettingLine.Changed : SettingLine.Plain
                        editable: own
                        onTapped: root.numberWanted(rowId, title, unitWords, decimals, source, valueText)
                    }
                }

                Label {
                    visible: limits.count === 0
                    text: qsTr("none")
                    muted: true
                }
            }

            Column {
                width: parent.width
                spacing: Theme.half

                Label {
                    text: qsTr("Evidence that sign-off asks for")
                    role: Label.Detail
                    muted: true
                }

                Repeater {
                    model: root.view.evidence

                    delegate: Label {
                        required property string modelData

                        width: page.columnWidth
                        text: modelData
                        wrapMode: Text.WordWrap
                    }
                }

                Label {
                    visible: root.view.evidence.length === 0
                    text: qsTr("none beside the signature")
                    muted: true
                }
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            visible: root.view.adjusted
            text: qsTr("As the catalogue has it")
            available: !root.view.ask.busy
            onTapped: root.view.takeBack()
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Save")
            available: root.view.changed && !root.view.ask.busy
            reason: qsTr("nothing changed")
            onTapped: root.view.save()
        }
    ]
}
