// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The operations by skill, with what the house changed in them.
//   catalogue;  signal wanted(string kindId): one is to be looked at
Item {
    id: root

    required property CatalogueView catalogue
    readonly property Component heading: Qt.createComponent("ListHeading.qml")

    signal wanted(string kindId)

    Label {
        id: origin

        width: parent.width
        text: qsTr("%1, %2").arg(root.catalogue.title).arg(root.catalogue.originWords)
        role: Label.Detail
        muted: true
        wrapMode: Text.WordWrap
    }

    ListView {
        id: list

        anchors { fill: parent; topMargin: origin.height + Theme.half }
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.catalogue.kinds
        section.property: "skillWords"
        section.delegate: root.heading

        delegate: SettingLine {
            required property string kindId
            required property string minutesWords
            required property string materialWords
            required property bool safety
            required property bool changed
            required title

            width: list.width
            detail: safety ? qsTr("safety item") : ""
            value: minutesWords
            note: qsTr("material: %1").arg(materialWords)
            mark: changed ? SettingLine.Changed : SettingLine.Plain
            onTapped: root.wanted(kindId)
        }
    }
}
